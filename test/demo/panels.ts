/** Pictures that show what a cut would leave in a person's hand. */

import type { MotifTools } from '../../src/contracts.js';
import { bounds, compose, transform, translation } from '../../src/geom/index.js';
import type { Affine, Path } from '../../src/model.js';
import { num } from '../../src/write/number.js';
import { pathData } from '../../src/write/svg.js';
import { pngOf } from '../support/png.js';
import type { Pixels } from '../support/stamped.js';

export const GROUND = '#efe8dc';
const TABLE = '#5c5148';
const INK = '#4b4038';
const CAPITAL_PX = 13;

/** Lines of words, the first at `x`, `y` (pixels, y down, baseline). */
export function words(tools: MotifTools, text: string, x: number, y: number): string {
  const set = tools.set({ text, font: 'nunito-bold', height: CAPITAL_PX, align: 'left' });
  const d = set.regions
    .flatMap(r => [r.outer, ...r.holes])
    .map(p => pathData(transform(p, translation(x, -y)), 0))
    .join('');
  return `<path d="${d}" fill="${INK}" fill-rule="evenodd"/>`;
}

const uri = (picture: Pixels) =>
  `data:image/png;base64,${Buffer.from(pngOf(picture)).toString('base64')}`;

export interface CutOut {
  /** As it is cut, on paper, mm; the outline last. */
  readonly paths: readonly Path[];
  /** Where it is laid: from the paper to the table, mm, y up. */
  readonly at: Affine;
}

/**
 * Pieces cut from a sheet of paper (all of it in `paper`, mm × `perMm`) and laid on a table of so many mm,
 * `px` pixels a millimetre, its upper left corner at `x`, `y` pixels.
 */
export function table(
  paper: Pixels,
  perMm: number,
  pieces: readonly CutOut[],
  {
    width,
    height,
    px,
    x,
    y,
    id,
  }: Record<'width' | 'height' | 'px' | 'x' | 'y', number> & { id: string },
): string {
  const tall = paper.height / perMm;
  const cut = pieces.map(({ paths, at }, i) => {
    const own = paths.map(p => pathData(p, tall)).join('');
    const [a, b, c, d, e, f] = at;
    // The same move with y down in both.
    const m = [a, -b, -c, d, e + c * tall, height - f - d * tall].map(num).join(' ');
    const clip = `${id}-${i}`;
    const shade = pathData(transform(paths.at(-1)!, compose(translation(0.5, -0.7), at)), height);
    return (
      `<path d="${shade}" fill="#2b1f14" opacity=".35"/>` +
      `<clipPath id="${clip}"><path d="${own}" clip-rule="evenodd"/></clipPath>` +
      `<g transform="matrix(${m})"><image clip-path="url(#${clip})" width="${num(paper.width / perMm)}" height="${num(tall)}" preserveAspectRatio="none" href="${uri(paper)}"/></g>`
    );
  });
  return `<g transform="translate(${x} ${y}) scale(${px})"><rect width="${width}" height="${height}" rx="2" fill="${TABLE}"/>${cut.join('')}</g>`;
}

/** A piece turned about its middle and laid with its middle at a place. */
export function laid(outline: Path, x: number, y: number, turnDeg: number): Affine {
  const b = bounds(outline);
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const [mx, my] = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  return [c, s, -s, c, x - c * mx + s * my, y - s * mx - c * my];
}

export const picture = (width: number, height: number, parts: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><rect width="${width}" height="${height}" fill="${GROUND}"/>${parts.join('')}</svg>`;
