import { describe, expect, it } from 'vitest';
import { proveFold } from '../../src/fold/assembly.js';
import { gathering } from '../../src/fold/gather.js';
import { place } from '../../src/fold/pose.js';
import { distance3, moved, type Point3 } from '../../src/fold/space.js';
import { standing } from '../../src/fold/stand.js';
import { vertices } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { Stage } from '../../src/page/stage.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';

/** One of each way to stand: on its base, on its side, in parts, in glued parts that curl. */
const SHOWN = [
  'flip-lid',
  'straight-tuck',
  'lid-and-base',
  'heart-box',
  'gable-top',
  'pillow',
  'drum',
  'sleeve-and-tray',
  'four-wall-burst',
];

const netsOf = (id: string): readonly Net[] => {
  const style = STYLES.find(s => s.id === id)!;
  return style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
};

function stageOf(nets: readonly Net[]): Stage {
  return new Stage({
    nets: nets.map(net => {
      const { steps } = proveFold(net);
      return { net, steps, told: steps.map(s => `step ${s.step}`) };
    }),
    placing: Object.fromEntries(nets.flatMap(n => (n.up || n.stands ? [[n.id, 'there']] : []))),
    gathering: gathering(nets),
  });
}

const pointsAt = (stage: Stage, moment: number): Point3[] =>
  stage
    .at(moment)
    .flatMap(({ poses, world }) =>
      poses.flatMap(p => vertices(p.panel.outline).map(v => moved(world, place(p, v)))),
    );

describe.each(SHOWN)('the stage of %s', id => {
  const nets = netsOf(id);
  const stage = stageOf(nets);

  it('begins with all of the paper flat on the table, nothing on top of anything', () => {
    for (const [, , z] of pointsAt(stage, 0)) expect(Math.abs(z)).toBeLessThan(1e-6);
    const rows = stage.at(0).map(({ poses, world }) => {
      const xy = poses.flatMap(p => vertices(p.panel.outline).map(v => moved(world, place(p, v))));
      const [xs, ys] = [xy.map(p => p[0]), xy.map(p => p[1])];
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] as const;
    });
    rows.forEach((a, i) => {
      for (const b of rows.slice(i + 1)) {
        const meet = a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
        expect(meet).toBe(false);
      }
    });
  });

  it('ends where the closed parts stand', () => {
    const due = nets.flatMap(net =>
      standing(net).flatMap(p => vertices(p.panel.outline).map(v => place(p, v))),
    );
    const gaps = pointsAt(stage, stage.length).map((p, i) => distance3(p, due[i]!));
    expect(Math.max(...gaps)).toBeLessThan(1e-6);
  });

  it('moves without a leap', () => {
    const STEP = 0.02;
    let before = pointsAt(stage, 0);
    for (let moment = STEP; moment <= stage.length + 1e-9; moment += STEP) {
      const now = pointsAt(stage, moment);
      const most = Math.max(...now.map((p, i) => distance3(p, before[i]!)));
      expect(most, `at ${moment}`).toBeLessThan(40);
      before = now;
    }
  });

  it('keeps what is carried under the top of the picture', () => {
    stage.phases.forEach((phase, i) => {
      if (phase.kind !== 'place') return;
      for (const share of [0.35, 0.5, 0.65]) {
        const high = Math.max(...pointsAt(stage, i + share).map(p => p[2]));
        // It is turned on the way, and may reach a little higher than in its middle.
        expect(high).toBeLessThan(stage.extent(i + share).high[2] * 1.15 + 1);
      }
    });
  });

  it('keeps all of it in the room that the picture makes for it at the ends of steps', () => {
    for (let i = 0; i <= stage.length; i++) {
      const { low, high } = stage.extent(i);
      for (const p of pointsAt(stage, i)) {
        for (const k of [0, 1, 2] as const) {
          expect(p[k]).toBeGreaterThan(low[k] - 0.2);
          expect(p[k]).toBeLessThan(high[k] + 0.2);
        }
      }
    }
  });
});
