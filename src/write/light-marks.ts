/** The light on a folded box: what is laid over its faces and under all of it. */
import { bounds, polygon } from '../geom/index.js';
import type { Affine, Bounds, Lit, Path, Point } from '../model.js';
import { LOW, LOW_SHARE } from '../shading.js';
import type { Mark } from './figure.js';

const SHADE = '#2b190b';
/** Of many thin layers one over the other: to whole steps of a channel a brown one is rounded to red. */
const THIN = '#000000';
/** The share of the light that all of the lamp gives: on a face, and on the table at the foot of the box. */
const ON_FACE = 0.18;
const ON_TABLE = { room: 0.36, page: 0.2 } as const;
/** Seen in a room, or on a page of white paper: there shadows are paler, what is far down is no darker. */
export type Light = keyof typeof ON_TABLE;

/** How far the shadow of a layer falls farther for the foam under it, of the foam's height. */
export const FOAM_FALL = 0.6;

export type Place = (p: Point) => Point;
type Loops = readonly (readonly Point[])[];

const fallen = (loops: Loops, place: Place): Path[] => loops.map(l => polygon(l.map(place)));

/** What one of `n` layers lets through less, so that all of them take `share`. */
const each = (share: number, n: number): number => 1 - (1 - share) ** (1 / n);

/** What falls on the table, softer the higher it comes from; `by` is how soft it is at the foot, mm. */
export const tableMark = (
  shadows: readonly Loops[],
  place: Place,
  by: number,
  light: Light,
): Mark => ({
  kind: 'blurred',
  by,
  colour: SHADE,
  marks: shadows.map(loops => ({
    kind: 'shape',
    paths: fallen(loops, place),
    all: true,
    fill: SHADE,
    opacity: each(ON_TABLE[light], shadows.length),
  })),
});

/** The paper of a strip that curls, from its light at one joint to that at the other. */
export function curledMark(
  paths: readonly Path[],
  { from, to, lights }: NonNullable<Lit['turning']>,
  place: Place,
  colour: (light: number) => `#${string}`,
  seam: number,
): Mark {
  const [a, b] = lights;
  const ends = [
    { colour: colour(a), opacity: 1 },
    { colour: colour(b), opacity: 1 },
  ] as const;
  return { kind: 'soft', paths, from: place(from), to: place(to), ends, seam };
}

/** Over a face and all that lies on it: less light near the table, and the shadows of other paper. */
export function shadeMarks(
  paths: readonly Path[],
  lit: Lit,
  side: 'inside' | 'outside',
  top: number,
  place: Place,
  light: Light,
): Mark[] {
  const [a, b, c] = lit.height;
  const steep = a * a + b * b;
  const end = light === 'room' ? LOW_SHARE * top : 0;
  const low: Mark[] = [];
  if (steep > 0 && end > 0) {
    const at = (z: number): Point => place([(a * (z - c)) / steep, (b * (z - c)) / steep]);
    const ends = [
      { colour: SHADE, opacity: LOW[side] },
      { colour: SHADE, opacity: 0 },
    ] as const;
    low.push({ kind: 'soft', paths, from: at(0), to: at(end), ends });
  } else if (end > 0 && c < end) {
    const opacity = LOW[side] * (1 - c / end);
    low.push({ kind: 'shape', paths, all: true, fill: SHADE, opacity });
  }
  const opacity = each(ON_FACE, lit.shadows.length);
  const seen = bounds(...paths);
  const shadows = lit.shadows.flatMap((loops): Mark[] => {
    const upon = fallen(loops, place).filter(l => boundsMeet(bounds(l), seen));
    return upon.length > 0 ? [{ kind: 'shape', paths: upon, all: true, fill: THIN, opacity }] : [];
  });
  return shadows.length > 0
    ? [...low, { kind: 'clip', by: paths, all: true, marks: shadows }]
    : low;
}

const boundsMeet = (a: Bounds, b: Bounds): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;

/** The picture plane's own frame as a function. */
export const placer =
  (frame: Affine): Place =>
  ([x, y]) => [frame[0] * x + frame[2] * y + frame[4], frame[1] * x + frame[3] * y + frame[5]];
