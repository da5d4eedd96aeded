/**
 * A second opinion of the tip simulation: the drag equation dθ/ds = sin(φ(s) − θ)/d given to a general
 * integrator of differential equations (odex, the Gragg–Bulirsch–Stoer method after Hairer and Wanner), along
 * whole pivot paths of real nets.
 */
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { drawNet } from '../../src/fold/index.js';
import type { Path, Point } from '../../src/geom/index.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { dragTip } from '../../src/tool/simulate.js';

type Rate = (s: number, y: readonly number[]) => number[];
interface Solver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(f: Rate, from: number, y: number[], to: number): { readonly y: number[] };
}
// Its types are its source, which our compiler's rules do not suit.
const require = createRequire(import.meta.url);
const { Solver } = require('odex') as { readonly Solver: new (size: number) => Solver };

const d = 0.25;

/** Where the tip is at the end of every segment, and the heading in the end. */
function integrated(path: Path, heading: number): { tips: Point[]; theta: number } {
  let theta = heading;
  let from = path.start;
  const tips: Point[] = [];
  for (const s of path.segments) {
    if (s.kind === 'cubic') throw new Error('a pivot path has lines and arcs');
    const chord = Math.hypot(s.to[0] - from[0], s.to[1] - from[1]);
    const sweep = s.kind === 'arc' ? 4 * Math.atan(s.bulge) : 0;
    const length = sweep === 0 ? chord : (chord * sweep) / 2 / Math.sin(sweep / 2);
    const phi = Math.atan2(s.to[1] - from[1], s.to[0] - from[0]) - sweep / 2;
    const solver = new Solver(1);
    solver.absoluteTolerance = 1e-11;
    solver.relativeTolerance = 1e-11;
    solver.maxSteps = 1e6;
    const rate: Rate = (at, [t]) => [Math.sin(phi + (sweep * at) / length - t!) / d];
    [theta] = solver.solve(rate, 0, [theta], length).y as [number];
    tips.push([s.to[0] - d * Math.cos(theta), s.to[1] - d * Math.sin(theta)]);
    from = s.to;
  }
  return { tips, theta };
}

const SHAPES = ['flip-lid', 'pillow', 'drum', 'heart-box', 'cup', 'gusset-bag'];

describe.each(SHAPES)('%s', id => {
  const style = STYLES.find(s => s.id === id)!;
  const [net] = style.build(
    { inside: style.example, thickness: 0.3 },
    fillParams(style.params, {}),
  );
  const { outline } = drawNet(net!);
  const { driven, headingBefore } = compensatePaths([outline], { offset: d, overcut: 0.5 });
  it.each([
    ['where the file allows for the blade', 0],
    ['from a heading that is wrong by 1.2', 1.2],
  ])('%s', (_, off) => {
    const start = headingBefore + off;
    const [track] = dragTip(driven, d, start, 1e-7);
    const { tips, theta } = integrated(driven[0]!, start);
    expect(Math.sin(track!.headingAfter - theta)).toBeCloseTo(0, 7);
    // Every tip that the integrator finds is a point of the track, in order.
    const { xy } = track!;
    let i = 0;
    for (const [x, y] of tips) {
      const away = (k: number) => Math.hypot(xy[k]! - x, xy[k + 1]! - y);
      while (i < xy.length && !(away(i) < 1e-6)) i += 2;
      expect(i).toBeLessThan(xy.length);
    }
  });
});
