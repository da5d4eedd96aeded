/** What is seen on the paper of a folded box beside what is glued to it. */
import { bounds, transformAny } from '../geom/index.js';
import type { Affine, FaceMark, Path } from '../model.js';
import { shaded } from '../shading.js';
import type { Colour, Line, Mark } from './figure.js';

/** Film lets through what is behind it. */
const FILM = { colour: '#f4f8fb', opacity: 0.22 } as const;
const GLEAM = 0.38;
const PEN = '#5b4a3c';
/** Colours of dots, and of their rims. */
const DOTS = {
  'hook-and-loop': { fill: '#f3efe8', rim: '#b9b0a3' },
  sticker: { fill: '#f7f3e6', rim: '#c3b892' },
  magnet: { fill: '#8f9296', rim: '#5c5f63' },
} as const;

export function faceMark(
  { kind, path }: FaceMark,
  at: Affine,
  paper: string,
  light: number,
  px: number,
): Mark {
  const paths = [transformAny(path, at)];
  const line = (colour: Colour, width: number, dash?: readonly number[]): Mark => {
    const drawn: Line = { colour, width: width * px, round: !dash };
    return { kind: 'shape', paths, line: dash ? { ...drawn, dash: dash.map(d => d * px) } : drawn };
  };
  // A cut is dark, a crease only a little darker than its paper.
  if (kind === 'slit') return line(shaded(paper, -1.9), 1.3);
  if (kind === 'perforation') return line(shaded(paper, -1.7), 1.2, [3, 2.6]);
  if (kind === 'crease') return line(shaded(paper, light - 0.5), 0.9);
  if (kind === 'pen') return line(shaded(PEN, light), 1.1);
  const { fill, rim } = DOTS[kind];
  const edge = { colour: shaded(rim, light), width: 0.9 * px };
  return { kind: 'shape', paths, fill: shaded(fill, light), line: edge };
}

/** A film over what is behind it: a gleam at its upper left. */
export function filmMarks(outline: readonly Path[], light: number): Mark[] {
  const b = bounds(...outline);
  const ends = [
    { colour: '#ffffff', opacity: GLEAM },
    { colour: '#ffffff', opacity: 0 },
  ] as const;
  const [from, to] = [
    [b.minX, b.maxY],
    [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2],
  ] as const;
  const fill = shaded(FILM.colour, light);
  return [
    { kind: 'shape', paths: outline, all: true, fill, opacity: FILM.opacity },
    { kind: 'soft', paths: outline, from, to, ends },
  ];
}
