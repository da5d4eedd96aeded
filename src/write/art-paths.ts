/** Printed art as SVG path data: one path a colour, however many shapes it has. For pictures, where cut
 *  files' plain absolute commands would be three times as long. */
import { arcShape, transform } from '../geom/index.js';
import type { Affine, Art, Path, Point } from '../model.js';
import { finite } from './number.js';
import { hex } from './svg.js';

export interface ColouredPath {
  readonly colour: string;
  /** To be filled by the non-zero rule: outlines turn one way and holes the other, and shapes of one
   *  colour may overlap. */
  readonly d: string;
}

/** Steps to the millimetre: a quarter of a dot at 600 dots an inch. */
const STEPS = 100;

/** Every place is rounded by itself and only then taken relative to the one before, so that nothing
 *  adds up. */
function compactData(path: Path, height: number): string {
  const grid = ([x, y]: Point): Point => [
    Math.round(x * STEPS) + 0,
    Math.round((height - y) * STEPS) + 0,
  ];
  let at = grid(finite(path).start);
  let data = `M${pair(at)}`;
  let command = 'M';
  let from = path.start;
  const last = path.closed ? path.segments.at(-1) : undefined;
  for (const s of path.segments) {
    // `z` draws the last line of a closed path.
    if (s === last && s.kind === 'line') break;
    const to = grid(s.to);
    const rel = (p: Point): Point => {
      const [x, y] = grid(p);
      return [x - at[0], y - at[1]];
    };
    let words: string;
    let next: string;
    if (s.kind === 'arc') {
      const { radius, sweep } = arcShape(from, s);
      const r = number(Math.round(radius * STEPS));
      // y is turned over, and with it the sweep.
      const flags = `${Math.abs(sweep) > Math.PI ? 1 : 0} ${sweep > 0 ? 0 : 1}`;
      [next, words] = ['a', `${r} ${r} 0 ${flags}${joined(pair(rel(s.to)))}`];
    } else if (s.kind === 'cubic') {
      const all = [rel(s.c1), rel(s.c2), rel(s.to)].map(pair);
      [next, words] = ['c', all.reduce((text, p) => text + joined(p))];
    } else {
      [next, words] = ['l', pair(rel(s.to))];
    }
    data += next === command ? joined(words) : next + words;
    [command, at, from] = [next, to, s.to];
  }
  return path.closed ? `${data}z` : data;
}

/** A number of steps in mm, as short as can be. */
function number(steps: number): string {
  const text = String(steps / STEPS);
  return text.replace(/^(-?)0\./, '$1.');
}
/** A minus sign parts numbers as well as a blank does. */
const joined = (text: string) => (text.startsWith('-') ? text : ` ${text}`);
const pair = ([x, y]: Point) => number(x) + joined(number(y));

/** A path about its own origin, y down. */
export const previewPath = (path: Path): string => compactData(path, 0);

/** The ground, then the fills in the order of painting. `height` is that of the sheet: SVG's y runs
 *  down. */
export function artPaths(art: Art, at: Affine, height: number): ColouredPath[] {
  const data = (path: Path) => compactData(transform(path, at), height);
  return [
    { colour: hex(art.ground), d: data(art.bleed) },
    ...art.fills.map(({ colour, regions }) => ({
      colour: hex(colour),
      d: regions.flatMap(r => [r.outer, ...r.holes].map(data)).join(''),
    })),
  ];
}
