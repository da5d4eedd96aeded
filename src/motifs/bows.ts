/** A bow of three pieces, and ribbon tails. Drawn 100 wide. */
import { defineMotif } from '../contracts.js';
import {
  corner,
  heading,
  line,
  openPath,
  openSpline,
  rectangle,
  rotation,
  roundedPolygon,
  transform,
} from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { drawn, figure, pairOf, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { flipped, mirroredSpline, shape } from './shapes.js';

/** Loops that lie flat: plump, drawn in at the knot. */
const LOOPS = mirroredSpline([
  corner([0, -6], 'free', [1, -0.35]),
  [24, -19.5],
  heading([50, -1], [0, 1]),
  [30, 22.5],
  corner([0, 6], [-1, -0.3]),
]);

/** Loops to fold: each as long again, so that its end comes back to the middle under the knot. */
const LONG_LOOPS = mirroredSpline([
  corner([0, -5.5], 'free', [1, -0.2]),
  [25, -14],
  heading([50, -19], [1, 0]),
  [75, -14],
  corner([98, -6.5], [1, 0.2]),
  corner([98, 6.5], 'free', [-1, 0.2]),
  [75, 14],
  heading([50, 19], [-1, 0]),
  [25, 14],
  corner([0, 5.5], [-1, -0.2]),
]);

/** Both tails in one piece, their ends cut like a swallow's. */
const TAILS = mirroredSpline([
  corner([0, -11], 'free', [0.55, -1]),
  [13, -30],
  corner([19, -52], [0.1, -1]),
  corner([28.5, -44]),
  corner([40, -50], 'free', [-0.12, 1]),
  [29, -21],
  corner([7, 4], [-1, 0.75]),
  corner([0, 6]),
]);

const both = (path: Path): Path[] => [path, flipped(path)];
const straight = (from: Point, to: Point): Path => openPath(from, [line(to)]);

/** Pleats that fan out from the knot. */
const PLEATS = [
  openSpline([[9, 3.4], [18, 6.4], heading([28, 11], [1, 0.5])]),
  openSpline([[9, -2.6], [18, -4.8], heading([26, -8.5], [1, -0.5])]),
];
const TAIL_CREASE = openSpline([
  [9, -10],
  [20, -26],
  [27.5, -40],
]);

const knot = (half: number, high: number): Path =>
  roundedPolygon(
    [
      [half, -high],
      [half, high],
      [-half, high],
      [-half, -high],
    ],
    0.55 * half,
  );

export const bow = defineMotif({
  id: 'bow',
  family: 'ribbons',
  summary: 'a bow of tails, loops and a knot, creased to stand up',
  params: {
    size: { ...sizeParam(60), least: 24 },
    loops: {
      kind: 'choice',
      default: 'flat',
      choices: ['flat', 'folded'],
      help: 'flat; or cut twice as long and folded back to the middle, half as wide in the end',
    },
    tails: { kind: 'flag', default: true, help: 'tails behind the loops' },
  },
  build({ size, loops, tails }): readonly Layer[] {
    const behind = tails
      ? [layer('tails', TAILS, { paper: 'tail', strokes: both(TAIL_CREASE).map(scored) })]
      : [];
    if (loops === 'folded') {
      const turns = both(straight([50, -17.5], [50, 17.5]));
      // It goes round the middle and is glued behind: four folds.
      const band = [-11.5, -8.5, 8.5, 11.5].map(y => straight([-5.2, y], [5.2, y]));
      const long = layer('loops', LONG_LOOPS, { strokes: turns.map(scored) });
      const wrap = layer('knot', rectangle(-7, -26, 14, 52), {
        paper: 'knot',
        strokes: band.map(scored),
      });
      return figure([...behind, long, wrap], size);
    }
    const front = layer('loops', LOOPS, { lift: 1, strokes: PLEATS.flatMap(both).map(scored) });
    const pinch = [-2.4, 2.4].map(x => straight([x, -6.4], [x, 6.4]));
    const middle = layer('knot', knot(7.4, 9.6), { paper: 'knot', strokes: pinch.map(scored) });
    return figure([...behind, front, middle], size);
  },
});

/** One tail that hangs from the origin, `long` down in a slow wave, its end cut like a swallow's: its
 *  outline and the lines along its edges. */
function tail(wide: number, long: number): { outline: Path; lines: Path[] } {
  const sway = 0.3 * wide;
  // A ribbon keeps its width: its edges are the wave's own, moved square to it.
  const wave = (t: number) => sway * Math.sin(1.85 * Math.PI * t);
  const at = (side: number, t: number): Point => {
    const lean = (sway * 1.85 * Math.PI * Math.cos(1.85 * Math.PI * t)) / long;
    const out = (side * wide) / 2 / Math.hypot(1, lean);
    return [wave(t) + out, -long * t + lean * out];
  };
  const edge = (side: number, to: number) => [0.2, 0.42, 0.64, 0.84].map(k => at(side, k * to));
  const outline = shape([
    corner(at(-1, 0)),
    ...edge(-1, 1),
    corner(at(-1, 1)),
    corner(at(0, 1 - (0.42 * wide) / long)),
    corner(at(1, 1)),
    ...edge(1, 1).reverse(),
    corner(at(1, 0)),
  ]);
  const lines = [-0.66, 0.66].map(s => openSpline([at(s, 0.04), ...edge(s, 1), at(s, 0.95)]));
  return { outline, lines };
}

export const ribbonTails = defineMotif({
  id: 'ribbon-tails',
  family: 'ribbons',
  summary: 'tails of ribbon to hang behind a rosette or a seal',
  params: {
    size: { ...sizeParam(44), least: 20 },
    spread: { kind: 'angleDeg', default: 38, least: 20, most: 70, help: 'angle between the tails' },
    length: {
      kind: 'number',
      default: 1.5,
      least: 1,
      most: 3,
      help: 'how long a tail is, as a part of the width of both',
    },
    middle: { kind: 'flag', default: true, help: 'a third tail, in the middle' },
    lines: { kind: 'flag', default: true, help: 'lines drawn along the edges' },
  },
  build({ size, spread, length, middle, lines }): readonly Layer[] {
    const long = 100 * length;
    const swing = (spread * Math.PI) / 360;
    const wide = 24 + 10 * Math.sin(swing) * length;
    const { outline, lines: edges } = tail(wide, long);
    const strokes = lines ? edges.map(drawn) : [];
    const turned = (path: Path) => transform(path, rotation(swing));
    const pair = pairOf('tail', turned(outline), 'main').map((l, i) => ({
      ...l,
      strokes: strokes.map(s => ({
        ...s,
        path: i === 0 ? turned(s.path) : flipped(turned(s.path)),
      })),
    }));
    const straightTail = mirroredSpline([
      corner([0, -1.02 * long + 0.42 * wide]),
      corner([0.5 * wide, -1.02 * long]),
      corner([0.5 * wide, 0]),
      corner([0, 0]),
    ]);
    const third = middle ? [layer('middle', straightTail, { paper: 'back' })] : [];
    return figure([...third, ...pair], size);
  },
});
