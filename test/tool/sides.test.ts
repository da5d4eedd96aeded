/** Folds scored from both sides: what lies where when the sheet is turned over, and turned back. */
import { describe, expect, it } from 'vitest';
import { creasesOf } from '../../src/fold/edges.js';
import { netPiece } from '../../src/fold/index.js';
import { place, pose } from '../../src/fold/pose.js';
import {
  apply,
  bounds,
  distanceToPath,
  line,
  openPath,
  type Path,
  type Point,
  pathLength,
  pointAt,
  rectangle,
  steps,
  transform,
  translation,
} from '../../src/geom/index.js';
import {
  BY_TOOL,
  type Cutter,
  type Folding,
  type Hinge,
  type Net,
  type Stroke,
} from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { planSides } from '../../src/tool/sides.js';
import { TIP_MM } from '../../src/units/tolerances.js';
import { stock } from '../sheet/shapes.js';
import { sampled } from '../support/clearance.js';

const cutter = (folds: Partial<Folding>): Cutter => ({
  id: 'test',
  summary: 'a cutter for tests',
  width: 3000,
  height: 3000,
  margin: 5,
  blade: { offset: 0.25, overcut: 0.5, compensatedBy: 'file' },
  folds: { ...BY_TOOL, ...folds },
  speed: { draw: 100, score: 50, perforate: 20, cut: 10, register: 100, travel: 200 },
});

/** Written without `turnedOver`: what a page does that is turned. */
const turnedBack = (path: Path, width: number): Point[] =>
  sampled(path).map(([x, y]) => [width - x, y]);

const SHEET = { width: 120, height: 90 };
const straight = (from: Point, to: Point): Path => openPath(from, [line(to)]);
const tray: Stroke[] = [
  { operation: 'cut', path: rectangle(20, 20, 80, 50) },
  { operation: 'score', path: straight([40, 20], [40, 70]), fold: 'valley' },
  { operation: 'score', path: straight([70, 20], [70, 70]), fold: 'mountain' },
  { operation: 'score', path: straight([85, 20], [85, 70]) },
];
const scoresOf = (passes: readonly { operation: string; drawn: readonly Path[] }[]) =>
  passes.filter(p => p.operation === 'score').flatMap(p => p.drawn);

describe('a sheet scored from both sides', () => {
  it('has its valleys, mirrored, in a run of their own and everything else on its face', () => {
    const { face, back, report } = planSides(tray, cutter({ sides: 'both' }), { sheet: SHEET });
    expect(back!.passes.map(p => p.operation)).toEqual(['score']);
    expect(scoresOf(back!.passes).map(p => p.start[0])).toEqual([80]);
    expect(face.passes.map(p => p.operation)).toEqual(['score', 'cut']);
    expect(scoresOf(face.passes).map(p => p.start[0])).toEqual([70, 85]);
    expect(report.lengths.score).toBeCloseTo(150, 9);
    expect(report.counts.score).toBe(3);
    expect(report.seconds).toBeCloseTo(face.report.seconds + back!.report.seconds, 9);
  });
  it('has them all on its face where nothing else is said', () => {
    const { face, back } = planSides(tray, cutter({}), { sheet: SHEET });
    expect(back).toBeUndefined();
    expect(scoresOf(face.passes)).toHaveLength(3);
  });
  it('keeps them off the cuts, which another run makes', () => {
    const { back } = planSides(tray, cutter({ sides: 'both', setback: 1 }), { sheet: SHEET });
    expect(bounds(scoresOf(back!.passes)[0]!)).toMatchObject({ minY: 21, maxY: 69 });
  });
  it('wakes the blade where no other run has anything, on either side', () => {
    // A piece lies where the back's wake-up cut would be if it did not know of it, and the other way round.
    const low = rectangle(6, 6, 108, 8);
    const strokes: Stroke[] = [
      { operation: 'cut', path: low },
      { operation: 'score', path: straight([60, 6], [60, 14]), fold: 'valley' },
      { operation: 'score', path: straight([10, 86], [110, 86]), fold: 'valley' },
    ];
    const light = cutter({ by: 'light-cut', sides: 'both' });
    const { face, back, report } = planSides(strokes, light, { sheet: SHEET });
    expect(report.heading).toBe('wake-up cut');
    const wake = back!.passes[0]!.drawn[0]!;
    expect(pathLength(wake)).toBeCloseTo(5, 6);
    const here = turnedBack(wake, SHEET.width);
    for (const p of here) {
      for (const s of strokes) expect(distanceToPath(p, s.path)).toBeGreaterThan(1.9);
      expect(p[1] < 6 || p[1] > 14).toBe(true);
    }
    const wakeFace = face.passes[0]!.drawn[0]!;
    for (const p of sampled(wakeFace)) {
      for (const s of strokes) expect(distanceToPath(p, s.path)).toBeGreaterThan(1.9);
    }
    for (const side of [face, back!]) {
      expect(side.report.tip!.compensated!.max).toBeLessThanOrEqual(TIP_MM);
    }
    const { compensated, uncompensated } = report.tip!;
    const tips = [face, back!].map(s => s.report.tip!);
    expect(compensated!.max).toBe(Math.max(...tips.map(t => t.compensated!.max)));
    expect(uncompensated.uncutMax).toBe(Math.max(...tips.map(t => t.uncompensated.uncutMax)));
    expect(uncompensated.uncut99).toBe(Math.max(...tips.map(t => t.uncompensated.uncut99)));
  });
});

// ---- Over all styles ------------------------------------------------------------------------------

const MARGIN = 20;
/** The strokes of a net as it lies on a sheet of its own, and the move that takes it there. */
function laid(net: Net) {
  const piece = netPiece(net, stock(1000, 1000), 1);
  const b = bounds(piece.outline);
  const at = translation(MARGIN - b.minX, MARGIN - b.minY);
  const strokes = [
    ...piece.strokes,
    ...[...piece.holes, piece.outline].map((path): Stroke => ({ operation: 'cut', path })),
  ].map(s => ({ ...s, path: transform(s.path, at) }));
  const sheet = { width: b.maxX - b.minX + 2 * MARGIN, height: b.maxY - b.minY + 2 * MARGIN };
  return { strokes, at, sheet };
}

/** Whether the child rises toward the eye where this hinge is folded a little, and nothing else. */
function rises(net: Net, hinge: Hinge): boolean {
  const little = pose(net, { hinge: h => (h === hinge ? 0.1 : 0), curl: () => 0 });
  const child = little.get(hinge.child)!;
  const off = (p: Point) => distanceToPath(p, hinge.along);
  const far = sampled(child.panel.outline).reduce((a, p) => (off(p) > off(a) ? p : a));
  return place(child, far)[2] > 0;
}

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  const nets = style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
  it('turned back, what is scored from behind lies on its folds, and on those that rise toward the eye', () => {
    for (const net of nets) {
      const { strokes, at, sheet } = laid(net);
      const { face, back } = planSides(strokes, cutter({ sides: 'both' }), { sheet });
      const behind = scoresOf(back?.passes ?? []);
      const points = behind.flatMap(path => turnedBack(path, sheet.width));
      const folds = creasesOf(net).filter(h => !h.soft && h.angle !== 0);
      // Scores of a panel that is folded within itself say their way.
      const within = net.panels.flatMap(p => p.strokes).filter(s => s.operation === 'score');
      const valleys = within.filter(s => s.fold === 'valley').map(s => s.path);
      const lines = [...folds.map(h => h.along), ...valleys].map(p => transform(p, at));
      for (const p of points) {
        expect(Math.min(...lines.map(l => distanceToPath(p, l)))).toBeLessThan(1e-6);
      }
      for (const s of within) {
        expect(s.fold).toBeDefined();
        const [x, y] = apply(at, pointAt(steps(s.path)[0]!, 0.37));
        const behindIt = behind.some(q => distanceToPath([sheet.width - x, y], q) < 0.01);
        expect(behindIt).toBe(s.fold === 'valley');
      }
      // Every crease is scored once, from its own side.
      for (const hinge of folds) {
        const step = [...steps(hinge.along)][0]!;
        // Not in its middle, where other folds may end.
        const middle = pointAt(step, 0.37);
        const [x, y] = [middle[0] + at[4], middle[1] + at[5]];
        const on = (paths: readonly Path[], p: Point) =>
          paths.some(q => distanceToPath(p, q) < 0.01);
        const behindIt = on(behind, [sheet.width - x, y]);
        expect(on(scoresOf(face.passes), [x, y])).toBe(!behindIt);
        // Folds that close a ring are no part of the tree.
        if (net.hinges.includes(hinge)) expect(behindIt).toBe(rises(net, hinge));
      }
    }
  });
});
