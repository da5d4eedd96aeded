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

  /** `colour` says how the page's own colours are written there. */
  constructor(private readonly colour: (colour: Colour) => string = plainColour) {}

  shade(colour: Colour): string {
    return colour.startsWith('#') ? hex(colour) : this.colour(colour);
  }
  nextClip(): string {
    this.clips += 1;
    return `clip-${this.clips}`;
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
    const opacity = mark.opacity === undefined ? '' : ` fill-opacity="${short(mark.opacity)}"`;
    const fill = mark.fill ? pool.shade(mark.fill) : 'none';
    return `<path fill="${fill}"${rule}${opacity}${mark.line ? lineText(mark.line, pool) : ''} d="${d}"/>`;
  }
  if (mark.kind === 'clip') {
    const inner = mark.marks.map(m => markText(m, height, pool)).join('');
    if (inner === '') return '';
    const id = pool.nextClip();
    const by = mark.by.map(p => shortData(p, height)).join('');
    const rule = mark.by.length > 1 && !mark.all ? ' clip-rule="evenodd"' : '';
    return `<clipPath id="${id}"><path${rule} d="${by}"/></clipPath><g clip-path="url(#${id})">${inner}</g>`;
  }
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
