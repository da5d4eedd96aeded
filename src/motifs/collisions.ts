/** Decorations on one face that get in each other's way. */
import { bounds, polygon } from '../geom/index.js';
import type { Decoration, Path, Point } from '../model.js';
import { CLOSE_MM } from '../units/tolerances.js';
import type { Decorated } from './decorate.js';
import { upsideDown } from './legible.js';
import { overhang, overlap } from './placement.js';

export interface OnFace {
  readonly decoration: Decoration;
  /** The way up on the panel when the box stands; nothing where it is looked down on. */
  readonly up?: Point | undefined;
  readonly covers: Decorated['covers'];
}

/** Further than this apart in their boxes, outlines are not compared. */
const boxesApart = (a: Path, b: Path) => {
  const [p, q] = [bounds(a), bounds(b)];
  return p.maxX <= q.minX || q.maxX <= p.minX || p.maxY <= q.minY || q.maxY <= p.minY;
};

const says = ({ over }: Decoration) => over?.includes('decoration') === true;

/**
 * What a person should know of decorations of one face, in the order in which they are glued: words that
 * stand on their heads or that
 * a later one covers, and motifs that lie partly over each other. One that lies wholly on another is as
 * it should be, and so is anything on an overlay.
 */
export function collisionWarnings(face: readonly OnFace[], item: string): string[] {
  const warnings: string[] = [];
  for (const { decoration, covers, up } of face) {
    if (covers.some(({ words, at }) => words.length > 0 && upsideDown(at, up))) {
      const { name, turn } = decoration;
      const right = (Math.round((turn * 180) / Math.PI) + 180) % 360 || 0;
      warnings.push(
        `${item}: the words of ${name} are upside down when the box stands: write  turn: ${right}`,
      );
    }
  }
  face.forEach((upper, i) => {
    if (says(upper.decoration)) return;
    for (const lower of face.slice(0, i)) {
      if (says(lower.decoration) || lower.decoration.what.kind === 'overlay') continue;
      const told = between(upper, lower);
      if (told) warnings.push(`${item}: ${told}`);
    }
    if (upper.decoration.what.kind === 'motif') {
      const own = copies(upper);
      if (own) warnings.push(`${item}: ${own}`);
    }
  });
  return warnings;
}

function between(upper: OnFace, lower: OnFace): string | undefined {
  let words = 0;
  let partly = 0;
  for (const above of upper.covers) {
    for (const below of lower.covers) {
      if (boxesApart(above.outline, below.outline)) continue;
      for (const box of below.words) words = Math.max(words, overlap(above.outline, box));
      partly = Math.max(partly, overlapIfPartly(above.outline, below.outline));
    }
  }
  const [a, b] = [upper.decoration.name, lower.decoration.name];
  const advice = 'move one with "at", or say  over: decoration';
  if (words > CLOSE_MM) return `${a} covers ${words.toFixed(1)} mm of the words of ${b}: ${advice}`;
  if (partly > CLOSE_MM)
    return `${a} lies over the edge of ${b} by ${partly.toFixed(1)} mm: ${advice}`;
  return undefined;
}

function copies({ decoration, covers }: OnFace): string | undefined {
  for (const [i, { outline }] of covers.entries()) {
    for (const other of covers.slice(0, i)) {
      if (boxesApart(outline, other.outline)) continue;
      const deep = overlap(outline, other.outline);
      if (!(deep > CLOSE_MM)) continue;
      return (
        `copies of ${decoration.name} lie over each other by ${deep.toFixed(1)} mm: ` +
        'put them further apart, or say  over: decoration'
      );
    }
  }
  return undefined;
}

function overlapIfPartly(a: Path, b: Path): number {
  const deep = overlap(a, b);
  const partly = deep > CLOSE_MM && overhang(a, b) > CLOSE_MM;
  return partly && !holds(a, b) && !holds(b, a) ? deep : 0;
}

/** Whether b's box lies in a's outline. */
function holds(a: Path, b: Path): boolean {
  const { minX, minY, maxX, maxY } = bounds(b);
  return (
    overhang(
      polygon([
        [minX, minY],
        [maxX, minY],
        [maxX, maxY],
        [minX, maxY],
      ]),
      a,
    ) <= CLOSE_MM
  );
}
