/** What the preview's painter is given: films, marks, heights and turns where the fold module has them. */
import { describe, expect, it } from 'vitest';
import { place } from '../../src/fold/pose.js';
import { distance3, dot3, length3, moved, turned } from '../../src/fold/space.js';
import { project, viewAxes } from '../../src/fold/view.js';
import { faceMarks, filmsOf } from '../../src/item-finish.js';
import type { Net } from '../../src/model.js';
import { type Source, sceneOf } from '../../src/page/scene.js';
import { Stage } from '../../src/page/stage.js';
import { fillParams } from '../../src/params.js';
import type { PreviewFacts } from '../../src/preview-model.js';
import { STYLES } from '../../src/styles/index.js';
import { SHOWN_FEATURES, shownNets } from '../support/shown-features.js';

const VIEW = { azimuth: -1.08, elevation: 0.46 };

type Told = Pick<PreviewFacts, 'decals' | 'films' | 'marks' | 'pieces'>;
const told = (nets: readonly Net[], films: PreviewFacts['films'] = []): Told => ({
  decals: [],
  pieces: [],
  films,
  marks: faceMarks(nets).map(({ path: _, ...mark }) => ({ ...mark, d: '' })),
});
const stageOf = (nets: readonly Net[]) =>
  new Stage({ nets: nets.map(net => ({ net, steps: [], told: [] })), placing: {}, gathering: [] });
const papersIn = (sources: readonly Source[]) =>
  sources.flatMap(s => (s.kind === 'paper' ? [s] : []));

describe('the scene', () => {
  it('has the film of a window, and dots and rows of perforation on their panels', () => {
    const { nets, pieces } = shownNets(SHOWN_FEATURES.find(f => f.id === 'window')!);
    const films = filmsOf({ pieces });
    const { sources } = sceneOf(stageOf(nets).at(0), told(nets, films), 0);
    expect(sources.filter(s => s.kind === 'film').length).toBe(1);
    const strip = shownNets(SHOWN_FEATURES.find(f => f.id === 'tear-strip')!).nets;
    const marked = papersIn(sceneOf(stageOf(strip).at(0), told(strip), 0).sources);
    for (const { facet, marks } of marked) {
      for (const m of marks) expect(m.panel).toBe(facet.face.panel.id);
    }
    expect(marked.flatMap(s => s.marks).length).toBe(told(strip).marks.length);
  });

  it('tells heights: those of the corners, from where they are seen', () => {
    const nets = STYLES.find(s => s.id === 'gable')!.build(
      { inside: STYLES.find(s => s.id === 'gable')!.example, thickness: 0.3 },
      fillParams(STYLES.find(s => s.id === 'gable')!.params, {}),
    );
    const stage = stageOf(nets);
    for (const { facet, stand, height } of papersIn(
      sceneOf(stage.at(stage.length), told(nets), 0).sources,
    )) {
      // On edge there is nothing to see.
      if (Math.abs(dot3(turned(stand.world, facet.normal), viewAxes(VIEW).toEye)) < 0.05) continue;
      const [a, b, c] = height(VIEW);
      for (const corner of facet.loops[0]!.map(p => moved(stand.world, p))) {
        const [x, y] = project(corner, VIEW);
        expect(a * x + b * y + c).toBeCloseTo(corner[2], 6);
      }
    }
  });

  it('turns from strip to strip of curled paper without a step', () => {
    const style = STYLES.find(s => s.id === 'pillow')!;
    const nets = style.build(
      { inside: style.example, thickness: 0.3 },
      fillParams(style.params, {}),
    );
    const stage = stageOf(nets);
    const turns = papersIn(sceneOf(stage.at(stage.length), told(nets), 0).sources).filter(
      s => s.turn && s.facet.face.panel.id === nets[0]!.root,
    );
    expect(turns.length).toBeGreaterThan(3);
    turns.forEach(({ turn, stand, facet }, i) => {
      for (const n of turn!.normals) expect(length3(n)).toBeCloseTo(1, 9);
      const before = turns[i - 1]?.turn;
      if (before) expect(dot3(before.normals[1], turn!.normals[0])).toBeGreaterThan(1 - 1e-9);
      // Its joints are on the panel's own surface.
      const [flat] = facet.face.loops[0]!;
      const on = moved(stand.world, place(facet.posed, flat!));
      expect(distance3(on, moved(stand.world, facet.loops[0]![0]!))).toBeLessThan(0.2);
    });
  });
});
