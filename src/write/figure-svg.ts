/** Figures as SVG: a picture by itself, or one of several inside a page that shares what they repeat. */

import { arcShape } from '../geom/index.js';
import type { Art, Path, Point } from '../model.js';
import { artPaths } from './art-paths.js';
import { escaped } from './escaped.js';
import { type Colour, type Figure, type Line, type Mark, plainColour } from './figure.js';
import { exact, finite, onGrid } from './number.js';
import { hex } from './svg.js';

/** What several figures of one document share: names, and art that is written once. */
export class SvgPool {
  private readonly arts = new Map<Art, string>();
  private clips = 0;
  private softs = 0;

  /** `colour` says how the page's own colours are written there. */
  constructor(private readonly colour: (colour: Colour) => string = plainColour) {}

  shade(colour: Colour): string {
    return colour.startsWith('#') ? hex(colour) : this.colour(colour);
  }
  nextClip(): string {
    this.clips += 1;
    return `clip-${this.clips}`;
  }
  nextSoft(): string {
    this.softs += 1;
    return `soft-${this.softs}`;
  }
  /** The name of an art, and its text where it has not been written before. */
  art(art: Art): { readonly id: string; readonly text: string } {
    const known = this.arts.get(art);
    if (known !== undefined) return { id: known, text: '' };
    const id = `art-${this.arts.size + 1}`;
    this.arts.set(art, id);
    const [, ...fills] = artPaths(art, [1, 0, 0, 1, 0, 0], 0);
    const paths = fills
      .filter(f => f.d !== '')
      .map(({ colour, d }) => `<path fill="${colour}" d="${d}"/>`);
    return { id, text: `<defs><g id="${id}">${paths.join('')}</g></defs>` };
  }
}

/** An SVG document `widthPx` wide, in the colours of white paper. */
export function figureSvg(figure: Figure, widthPx: number): string {
  const height = Math.round((figure.height / figure.width) * widthPx);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${height}" ` +
    `viewBox="0 0 ${short(figure.width)} ${short(figure.height)}">${figureMarks(figure, new SvgPool())}</svg>\n`
  );
}

/** The marks of a figure, y down, to stand in an `<svg>` whose view box has its size. */
export function figureMarks({ height, marks }: Figure, pool: SvgPool): string {
  return marks.map(m => markText(m, height, pool)).join('');
}

function markText(mark: Mark, height: number, pool: SvgPool): string {
  if (mark.kind === 'shape') {
    const d = mark.paths.map(p => shortData(p, height)).join('');
    if (d === '') return '';
    const rule = mark.fill && mark.paths.length > 1 && !mark.all ? ' fill-rule="evenodd"' : '';
    const opacity = mark.opacity === undefined ? '' : ` fill-opacity="${exact(mark.opacity)}"`;
    const fill = mark.fill ? pool.shade(mark.fill) : 'none';
    return `<path fill="${fill}"${rule}${opacity}${mark.line ? lineText(mark.line, pool) : ''} d="${d}"/>`;
  }
  if (mark.kind === 'tagged') return mark.marks.map(m => markText(m, height, pool)).join('');
  if (mark.kind === 'clip') {
    const inner = mark.marks.map(m => markText(m, height, pool)).join('');
    if (inner === '') return '';
    const id = pool.nextClip();
    const by = mark.by.map(p => shortData(p, height)).join('');
    const rule = mark.by.length > 1 && !mark.all ? ' clip-rule="evenodd"' : '';
    return `<clipPath id="${id}"><path${rule} d="${by}"/></clipPath><g clip-path="url(#${id})">${inner}</g>`;
  }
  if (mark.kind === 'blurred') return blurredText(mark, height, pool);
  if (mark.kind === 'soft') return softText(mark, height, pool);
  if (mark.kind === 'placed') {
    const { figure, at, scale = 1 } = mark;
    const down = height - at[1] - figure.height * scale;
    const sized = scale === 1 ? '' : ` scale(${exact(scale)})`;
    return `<g transform="translate(${short(at[0])} ${short(down)})${sized}">${figureMarks(figure, pool)}</g>`;
  }
  if (mark.kind === 'art') {
    const { id, text } = pool.art(mark.art);
    // The art stands with its y down already: turned over by the place, as the figure is.
    const [a, b, c, d, e, f] = mark.at;
    const at = [a, -b, -c, d, e, height - f].map(exact).join(' ');
    return `${text}<use href="#${id}" transform="matrix(${at})"/>`;
  }
  const [x, y] = [short(mark.at[0]), short(height - mark.at[1])];
  const turn = mark.turned ? ` transform="rotate(-90 ${x} ${y})"` : '';
  const anchor = mark.anchor === 'start' ? '' : ` text-anchor="${mark.anchor}"`;
  const bold = mark.bold ? ' font-weight="700"' : '';
  return `<text x="${x}" y="${y}" font-size="${short(mark.size)}"${anchor}${bold}${turn} fill="${pool.shade(mark.colour)}">${escaped(mark.text)}</text>`;
}

function blurredText(
  { by, colour, marks }: Extract<Mark, { kind: 'blurred' }>,
  height: number,
  pool: SvgPool,
): string {
  const id = pool.nextSoft();
  const value = Number.parseInt(hex(colour).slice(1), 16);
  const [r, g, b] = [value >> 16, (value >> 8) & 255, value & 255].map(c => exact(c / 255));
  // Thin layers of a colour are rounded to another: it is given to their sum.
  const matrix = `0 0 0 0 ${r} 0 0 0 0 ${g} 0 0 0 0 ${b} 0 0 0 1 0`;
  const inner = marks.map(m => markText(m, height, pool)).join('');
  return (
    `<filter id="${id}" x="-20%" y="-20%" width="140%" height="140%" color-interpolation-filters="sRGB">` +
    `<feGaussianBlur stdDeviation="${short(by)}"/><feColorMatrix values="${matrix}"/></filter>` +
    `<g filter="url(#${id})">${inner}</g>`
  );
}

function softText(
  { paths, from, to, ends, seam = 0 }: Extract<Mark, { kind: 'soft' }>,
  height: number,
  pool: SvgPool,
): string {
  const id = pool.nextSoft();
  const [a, b] = [from, to].map(([x, y]) => [short(x), short(height - y)]);
  const stops = ends.map(
    ({ colour, opacity }, i) =>
      `<stop offset="${i}" stop-color="${hex(colour)}"${opacity < 1 ? ` stop-opacity="${exact(opacity)}"` : ''}/>`,
  );
  const d = paths.map(p => shortData(p, height)).join('');
  const round = 'stroke-linejoin="round"';
  const line = seam > 0 ? ` stroke="url(#${id})" stroke-width="${short(2 * seam)}" ${round}` : '';
  return (
    `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x1="${a![0]}" y1="${a![1]}" ` +
    `x2="${b![0]}" y2="${b![1]}">${stops.join('')}</linearGradient><path fill="url(#${id})"${line} d="${d}"/>`
  );
}

function lineText({ colour, width, dash, round }: Line, pool: SvgPool): string {
  const ends = round ? ' stroke-linecap="round" stroke-linejoin="round"' : '';
  const dashes = dash && dash.length > 0 ? ` stroke-dasharray="${dash.map(short).join(' ')}"` : '';
  return ` stroke="${pool.shade(colour)}" stroke-width="${short(width)}"${ends}${dashes}`;
}

/** Hundredths of a millimetre: a quarter of a dot at 600 dots an inch. */
const short = (value: number): string => String(Math.round(onGrid(value) * 100) / 100 + 0);

/** Path data, y down from `height`. */
function shortData(path: Path, height: number): string {
  const at = ([x, y]: Point) => `${short(x)} ${short(height - y)}`;
  let from = finite(path).start;
  let data = `M${at(from)}`;
  for (const s of path.segments) {
    if (s.kind === 'arc') {
      const { radius, sweep } = arcShape(from, s);
      // y is turned over, and with it the sweep.
      data += `A${short(radius)} ${short(radius)} 0 ${Math.abs(sweep) > Math.PI ? 1 : 0} ${sweep > 0 ? 0 : 1} ${at(s.to)}`;
    } else if (s.kind === 'cubic') data += `C${at(s.c1)} ${at(s.c2)} ${at(s.to)}`;
    else data += `L${at(s.to)}`;
    from = s.to;
  }
  return path.closed ? `${data}Z` : data;
}
