/** PDF drawing operators (ISO 32000-1, 8.5) for our shapes, in mm with y up: the page's own
 *  coordinate system is set to that once. */
import { arcsToCubics } from '../geom/index.js';
import type { Affine, Art, Path, Point } from '../model.js';
import { exact, finite, num } from './number.js';
import { hex } from './svg.js';

const at = ([x, y]: Point) => `${num(x)} ${num(y)}`;

/** Path construction: m, l, c, h. */
export function pathOperators(path: Path): string {
  const parts = [`${at(path.start)} m`];
  for (const s of arcsToCubics(finite(path)).segments) {
    parts.push(s.kind === 'cubic' ? `${at(s.c1)} ${at(s.c2)} ${at(s.to)} c` : `${at(s.to)} l`);
  }
  if (path.closed) parts.push('h');
  return parts.join('\n');
}

/** `#rrggbb` as three numbers from 0 to 1. */
export function rgb(colour: string): string {
  const value = Number.parseInt(hex(colour).slice(1), 16);
  return [value >> 16, (value >> 8) & 255, value & 255].map(c => num(c / 255)).join(' ');
}

/** Art in its piece's frame, clipped to its bleed: the ground, then every fill with its holes left
 *  out (even-odd, a region at a time). */
export function artOperators(art: Art): string {
  const bleed = pathOperators(art.bleed);
  return [bleed, 'W n', `${rgb(art.ground)} rg`, bleed, 'f', artFillOperators(art)].join('\n');
}

/** The fills alone. */
export const artFillOperators = (art: Art): string =>
  art.fills
    .map(fill => {
      const regions = fill.regions.map(
        r => `${[r.outer, ...r.holes].map(pathOperators).join('\n')}\nf*`,
      );
      return `${rgb(fill.colour)} rg\n${regions.join('\n')}`;
    })
    .join('\n');

/** Goes on in another frame. */
export const matrixOperators = (frame: Affine): string => `${frame.map(exact).join(' ')} cm`;

/** Paints the named form in its place on the sheet. */
export const placeOperators = (name: string, place: Affine): string =>
  `q\n${matrixOperators(place)}\n/${name} Do\nQ`;

/** Paints everywhere on a sheet but inside the loops. */
export const clearOperators = (
  loops: readonly Path[],
  { width, height }: { readonly width: number; readonly height: number },
  painting: string,
): string =>
  ['q', boxPath(0, 0, width, height), ...loops.map(pathOperators), 'W* n', painting, 'Q'].join(
    '\n',
  );

/** Solid shapes of one colour operator (as `0 g`). */
export const fillOperators = (shapes: readonly Path[], colour: string): string =>
  ['q', colour, ...shapes.map(pathOperators), 'f', 'Q'].join('\n');

/** Strokes of one colour operator (as `0 G`), one width and one dash. */
export function strokeOperators(
  paths: readonly Path[],
  colour: string,
  width: number,
  dash: readonly number[] = [],
): string {
  const lines = paths.map(p => `${pathOperators(p)}\nS`);
  return ['q', colour, `${num(width)} w`, `[${dash.map(num).join(' ')}] 0 d`, ...lines, 'Q'].join(
    '\n',
  );
}

const boxPath = (x: number, y: number, width: number, height: number): string =>
  `${num(x)} ${num(y)} ${num(width)} ${num(height)} re`;

/** A filled rectangle, mm. */
export const boxOperators = (x: number, y: number, width: number, height: number): string =>
  `${boxPath(x, y, width, height)} f`;
