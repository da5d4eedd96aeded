/** Every style can be put together; what cannot be is told; the steps are what a person would do. */
import { describe, expect, it } from 'vitest';
import { proveFold } from '../../src/fold/assembly.js';
import { collisionFindings } from '../../src/fold/check.js';
import { checkNet } from '../../src/fold/index.js';
import { type Pose, place, pose } from '../../src/fold/pose.js';
import { ringGap } from '../../src/fold/rings.js';
import { rectangle } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { newNet } from '../../src/styles/build.js';
import { STYLES } from '../../src/styles/index.js';
import { polygonShape, rect } from '../../src/styles/shapes.js';

function built(id: string, thickness = 0.3, part = 0): Net {
  const style = STYLES.find(s => s.id === id)!;
  return style.build({ inside: style.example, thickness }, fillParams(style.params, {}))[part]!;
}

/** Where the corners of every panel are. */
const corners = (net: Net, at: Pose) =>
  net.panels.flatMap(p => p.outline.segments.map(s => place(at.get(p.id)!, s.to)));

const orderOf = (net: Net) => {
  const { steps } = proveFold(net);
  return (panel: string) => steps.find(s => s.hinges.some(h => h.child === panel))!.step;
};

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  it.each([0, 0.3])('has a way to be folded, paper %s mm', thickness => {
    const nets = style.build({ inside: style.example, thickness }, fillParams(style.params, {}));
    for (const net of nets) {
      const { findings, steps, folding } = proveFold(net);
      expect(findings.map(f => f.message)).toEqual([]);
      const folded = steps.flatMap(s => s.hinges.map(h => h.child));
      expect(folded.sort()).toEqual(net.hinges.map(h => h.child).sort());
      const closed = steps.flatMap(s => s.joins).sort((a, b) => a - b);
      expect(closed).toEqual(net.joins.map((_, i) => i));
      const [first, last] = [0, 1].map(f => corners(net, pose(net, folding(f))));
      expect(first!.every(p => Math.abs(p[2]) < 1e-9)).toBe(true);
      expect(last).toEqual(corners(net, pose(net)));
    }
  });
});

describe('the way of a flip-lid box', () => {
  const net = built('flip-lid');
  const step = orderOf(net);
  it('begins with the tabs and ends with the lid that lies over the other', () => {
    expect(step('front-left-tab')).toBeLessThanOrEqual(step('left'));
    expect(step('left')).toBeLessThan(step('left-dust'));
    expect(step('left-dust')).toBeLessThan(step('lid-under'));
    expect(step('lid-under')).toBeLessThan(step('lid'));
  });

  it('is free at moments that the search did not look at', () => {
    const { folding } = proveFold(net);
    for (let i = 0; i <= 97; i++) {
      const found = collisionFindings(net, pose(net, folding(i / 97)));
      expect(found.map(f => `${i}: ${f.message}`)).toEqual([]);
    }
  });
});

it('a 1-2-3 bottom is folded in the order of its name', () => {
  const step = orderOf(built('snap-bottom'));
  expect(step('bottom-first')).toBeLessThan(step('bottom-left'));
  expect(step('bottom-left')).toBeLessThan(step('bottom-last'));
});

it('a tuck flap is creased before its lid closes, and bends the dust flaps aside by a little', () => {
  const net = built('straight-tuck');
  const step = orderOf(net);
  expect(step('top-tuck')).toBeLessThan(step('top'));
  const springs = proveFold(net).steps.flatMap(s => s.springs);
  expect(springs.length).toBeGreaterThan(0);
  for (const s of springs) {
    expect(s.panel).toMatch(/-dust$/);
    expect(s.by).toBeLessThan(1);
  }
});

it('corner tabs go in before the walls that they lie inside, though those are folded first by custom', () => {
  const step = orderOf(built('tuck-tray'));
  expect(step('front-left-tab')).toBeLessThan(step('left'));
  expect(step('left')).toBeLessThan(step('left-inner'));
});

/** Two walls; a flap as deep as said on one of them is tucked inside the other. */
function tucked(flapFirst: boolean) {
  const net = newNet('corner', 'Corner', 0.3);
  const base = net.root('base', 'base', rect(40, 30));
  const front = net.fold(base.side('foot'), 'front', 'wall', w => rect(w, 20), { inset: [0.3, 0] });
  const end = net.fold(base.side('right'), 'end', 'wall', w => rect(w, 20));
  const tab = net.fold(front.side('left'), 'tab', 'flap', w => rect(w, 15), { inset: [1, 1] });
  net.tuck(tab, end);
  expect(checkNet(net.done())).toEqual([]);
  const { findings, steps } = proveFold(net.done());
  expect(findings).toEqual([]);
  return steps.findIndex(s => s.hinges.some(h => h.child === (flapFirst ? 'tab' : 'end')));
}

it('does not take a flap through the wall that it lies against', () => {
  expect(tucked(true)).toBeLessThan(tucked(false));
});

/** A wall with a window, and a shelf from the other wall that reaches through it; its head is as wide
 *  as said. The window is 12 mm wide. */
function shelf(head: number) {
  const net = newNet('shelf', 'Shelf', 0.3);
  const base = net.root('base', 'base', rect(40, 30));
  net.fold(base.side('left'), 'window', 'wall', w => ({
    ...rect(w, 30),
    holes: [rectangle(9, 4, 12, 15)],
  }));
  const back = net.fold(base.side('right'), 'back', 'wall', w => rect(w, 10));
  const [l, r] = [15 - head / 2, 15 + head / 2];
  net.fold(back.side('head'), 'shelf', 'insert', () =>
    polygonShape([
      { at: [0, 0], side: 'foot' },
      { at: [30, 0] },
      { at: [20, 25] },
      { at: [20, 46] },
      { at: [r, 46] },
      { at: [r, 52] },
      { at: [l, 52] },
      { at: [l, 46] },
      { at: [10, 46] },
      { at: [10, 25] },
    ]),
  );
  return net.done();
}

describe('a shelf through a window', () => {
  it('goes through when it is narrow enough', () => {
    expect(checkNet(shelf(10))).toEqual([]);
    expect(proveFold(shelf(10)).findings).toEqual([]);
  });
  it('does not with a head wider than the window, though the closed box is sound', () => {
    const net = shelf(24);
    expect(checkNet(net)).toEqual([]);
    const { findings, steps, tried } = proveFold(net);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ law: 'way', panels: ['window', 'shelf'] });
    expect(findings[0]!.message).toMatch(/no order of folding .* window strikes shelf/);
    expect(findings[0]!.measured).toBeGreaterThan(findings[0]!.allowed);
    expect(steps.length).toBeLessThan(3);
    expect(tried).toBeLessThan(200);
  });
});

it('a net without hinges needs no step', () => {
  const net = newNet('card', 'Card', 0.3);
  net.root('card', 'insert', rect(40, 30));
  const { steps, findings } = proveFold(net.done());
  expect([steps, findings]).toEqual([[], []]);
});

describe('the gussets of a gable top', () => {
  const net = built('gable-top');
  it('stay on their roof all the way', () => {
    const { folding } = proveFold(net);
    for (let i = 0; i <= 83; i++) {
      expect(ringGap(net, pose(net, folding(i / 83))).by, `${i}`).toBeLessThan(0.5);
    }
  });
  it('would be torn off if every fold turned evenly', () => {
    expect(ringGap(net, pose(net, 0.5)).by).toBeGreaterThan(5);
  });
});
