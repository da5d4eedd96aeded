/** What is seen on the paper of a folded box beside what is glued to it. */
import { bounds, transformAny } from '../geom/index.js';
import type { Affine, FaceMark, Path } from '../model.js';
import { FILM, markLook, shaded } from '../shading.js';
import type { Mark } from './figure.js';

export function faceMark(
  { kind, path }: FaceMark,
  at: Affine,
  paper: string,
  light: number,
  px: number,
): Mark {
  const { fill, line: colour, width, dash } = markLook(kind, paper, light);
  return {
    kind: 'shape',
    paths: [transformAny(path, at)],
    ...(fill && { fill }),
    line: {
      colour,
      width: width * px,
      ...(dash ? { dash: dash.map(d => d * px) } : { round: true }),
    },
  };
}

/** A film over what is behind it: where it lies flat with a gleam at its upper left. */
export function filmMarks(outline: readonly Path[], light: number, flat: boolean): Mark[] {
  const b = bounds(...outline);
  const ends = [
    { colour: '#ffffff', opacity: FILM.gleam },
    { colour: '#ffffff', opacity: 0 },
  ] as const;
  const [from, to] = [
    [b.minX, b.maxY],
    [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2],
  ] as const;
  const fill = shaded(FILM.colour, light);
  const film: Mark = { kind: 'shape', paths: outline, all: true, fill, opacity: FILM.opacity };
  if (!flat) return [film];
  return [film, { kind: 'soft', paths: outline, from, to, ends }];
}
