/** What is in the sky, and what falls from it or rises to it: cloud, sun, moon, drop, flame. Drawn on
 *  a sheet about 100 wide and brought to size. */
import { defineMotif } from '../contracts.js';
import {
  circle,
  corner,
  heading,
  offsetRegions,
  openSpline,
  polar,
  polygon,
  subtractRegions,
} from '../geom/index.js';
import type { Path, Region } from '../model.js';
import { asleep, drawn, faceParam, figure, NO_FACE } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { EAST, mirroredSpline, NORTH, pill, puffs, shape, stalk, star } from './shapes.js';

const whole = (outer: Path): Region => ({ outer, holes: [] });

export const cloud = defineMotif({
  id: 'cloud',
  family: 'sky',
  summary: 'a heap of round puffs with a paler cloud behind it',
  params: { size: { ...sizeParam(60), least: 20 }, face: faceParam(false) },
  build({ size, face }) {
    const front = puffs(pill(-50, 42, -18, 10), [
      [-31, 4, 15],
      [-8, 16, 22],
      [20, 8, 17],
    ]);
    const behind = puffs(pill(-8, 58, -12, 10), [
      [20, 20, 18],
      [40, 10, 14],
    ]);
    const { strokes, cheeks } = face ? asleep([-6, 6], 20) : NO_FACE;
    return figure(
      [
        layer('behind', behind, { paper: 'pale' }),
        layer('front', front, { lift: 1, strokes }),
        ...cheeks,
      ],
      size,
    );
  },
});

/** Straight rays from `inner` to `outer`, the first turned by `turn` of its pitch from the top. */
function rays(count: number, inner: number, outer: number, turn: number): Path {
  const at = (radius: number, i: number) =>
    polar(radius, Math.PI / 2 + ((i + turn) * 2 * Math.PI) / count);
  return polygon(
    Array.from({ length: count }, (_, i) => [at(outer, i), at(inner, i + 0.5)]).flat(),
  );
}

export const sun = defineMotif({
  id: 'sun',
  family: 'sky',
  summary: 'a sun with two rings of rays behind its disc',
  params: {
    size: { ...sizeParam(50), least: 25 },
    rays: { kind: 'count', default: 12, least: 8, most: 20, help: 'rays in each ring' },
    face: faceParam(true),
  },
  build({ size, rays: count, face }) {
    const { strokes, cheeks } = face ? asleep([0, 4], 20) : NO_FACE;
    return figure(
      [
        layer('rays-back', rays(count, 30, 46, 0.5), { paper: 'ray' }),
        layer('rays', rays(count, 30, 50, 0)),
        layer('disc', circle([0, 0], 28), { paper: 'disc', lift: 1, strokes }),
        ...cheeks,
      ],
      size,
    );
  },
});

/** Radius to which points are blunted, in the sheet's unit. */
const BLUNT = 2;

/** A shape without the parts that a disc of `radius` does not fit in. */
function blunted(outline: Path, radius: number): Path {
  const [core] = offsetRegions([whole(outline)], -radius, 'round');
  const [back] = offsetRegions([core!], radius, 'round');
  return back!.outer;
}

export const moon = defineMotif({
  id: 'moon',
  family: 'sky',
  summary: 'a crescent moon, asleep, with a star at its tip',
  params: {
    size: { ...sizeParam(45), least: 25 },
    fullness: {
      kind: 'number',
      default: 0.36,
      least: 0.25,
      most: 0.55,
      help: 'width of the crescent as a part of the whole disc',
    },
    face: faceParam(true),
  },
  build({ size, fullness, face }) {
    const bite = 44;
    const lean = 0.35;
    const away = 100 * fullness - 50 + bite;
    const [crescent] = subtractRegions(
      [whole(circle([0, 0], 50))],
      [whole(circle(polar(away, lean), bite))],
    );
    const outline = blunted(crescent!.outer, BLUNT);
    // Where the two circles meet: the half angle from the middle of the bite to a tip.
    const tip = Math.acos((50 ** 2 + away ** 2 - bite ** 2) / (100 * away));
    const thick = 100 * fullness;
    const middle = polar(-50 + thick / 2, lean);
    const w = thick * 0.5;
    const eye = openSpline([
      [middle[0] + 0.02 * w, middle[1] + 0.42 * w],
      [middle[0] + 0.3 * w, middle[1] + 0.18 * w],
      [middle[0] + 0.62 * w, middle[1] + 0.32 * w],
    ]);
    const smile = openSpline([
      [middle[0] + 0.25 * w, middle[1] - 0.62 * w],
      [middle[0] + 0.5 * w, middle[1] - 0.76 * w],
      [middle[0] + 0.74 * w, middle[1] - 0.6 * w],
    ]);
    const cheek = circle([middle[0] + 0.02 * w, middle[1] - 0.36 * w], 0.24 * w);
    return figure(
      [
        layer('front', outline, { strokes: face ? [drawn(eye), drawn(smile)] : [] }),
        ...(face ? [layer('cheek', cheek, { paper: 'cheek' })] : []),
        layer('star', star(polar(48.5, lean + tip + 0.1), 13, 5, -0.2), { paper: 'star', lift: 1 }),
      ],
      size,
    );
  },
});

export const drop = defineMotif({
  id: 'drop',
  family: 'sky',
  summary: 'a drop with a paler heart and a shine',
  params: { size: { ...sizeParam(28), least: 15 } },
  build({ size }) {
    const outline = mirroredSpline([
      heading([0, 0], EAST),
      heading([50, 48], NORTH),
      [31, 92],
      corner([0, 146], [-0.42, 1]),
    ]);
    const inner = mirroredSpline([
      heading([0, 12], EAST),
      heading([37, 47], NORTH),
      [23, 80],
      corner([0, 115], [-0.5, 1]),
    ]);
    const shine = stalk([
      [-20, 62, 7.5],
      [-25, 45, 9],
      [-17, 29, 7],
    ]);
    return figure(
      [
        layer('front', outline),
        layer('inner', inner, { paper: 'inner' }),
        layer('shine', shine, { paper: 'shine' }),
      ],
      size,
    );
  },
});

/** A flame that leans with a lick at its side, about 76 wide. */
const FLAME = shape([
  heading([0, 0], EAST),
  [30, 13],
  heading([41, 44], NORTH),
  corner([30, 82], [-0.5, 1], [-0.25, -1]),
  heading([21, 66], [-1, 0.1]),
  [16, 84],
  corner([-6, 124], [-0.6, 0.8], [0.25, -1]),
  [-13, 84],
  [-31, 60],
  heading([-39, 36], [0, -1]),
  [-28, 10],
]);

export const flame = defineMotif({
  id: 'flame',
  family: 'sky',
  summary: 'a flame of three papers, one inside the other',
  params: { size: { ...sizeParam(32), least: 18 } },
  build({ size }) {
    const middle = shape([
      heading([0, 7], EAST),
      [21, 17],
      heading([28, 38], NORTH),
      [14, 64],
      corner([-2, 92], [-0.5, 1], [0.1, -1]),
      [-11, 66],
      heading([-27, 34], [0, -1]),
      [-19, 13],
    ]);
    const core = shape([
      heading([0, 13], EAST),
      heading([15, 32], NORTH),
      corner([1, 65], [-0.5, 1], [-0.2, -1]),
      heading([-15, 31], [0, -1]),
    ]);
    return figure(
      [
        layer('front', FLAME),
        layer('middle', middle, { paper: 'middle' }),
        layer('core', core, { paper: 'glow', lift: 1 }),
      ],
      size,
    );
  },
});
