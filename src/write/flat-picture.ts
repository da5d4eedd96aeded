/** Small pictures in the flat: nets with their folds, and decorations that lie on nothing. */
import { bounds, compose, transform, translation } from '../geom/index.js';
import type { Affine, Convention, Decal, Path, Stroke } from '../model.js';
import { artPaths, previewPath } from './art-paths.js';
import { FOAM_FALL } from './light-marks.js';
import { num } from './number.js';
import { hex } from './svg.js';

/** Between nets, and round all of it, mm. */
const GAP_MM = 6;
const MARGIN_MM = 3;

/** A net as it is drawn: `fold` has them like this. */
export interface FlatNet {
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly slits: readonly Path[];
  readonly scores: readonly { readonly path: Path; readonly angle: number }[];
  readonly strokes: readonly Stroke[];
}

/** Nets side by side, on nothing. Valleys dashed, mountains dash-dot (after ISO 128). */
export function flatPicture(
  nets: readonly FlatNet[],
  paper: string,
  { operations }: Convention,
): string {
  let x = MARGIN_MM;
  let top = 0;
  const parts = nets.map(net => {
    const b = bounds(net.outline);
    const at = translation(x - b.minX, -MARGIN_MM - b.maxY);
    x += b.maxX - b.minX + GAP_MM;
    top = Math.max(top, b.maxY - b.minY);
    const data = (list: readonly Path[]) => list.map(p => previewPath(transform(p, at))).join('');
    const line = (d: string, colour: string, dash = '') =>
      d === '' ? '' : `<path fill="none" stroke="${hex(colour)}"${dash} d="${d}"/>`;
    const dashed = (list: string) => ` stroke-dasharray="${list}"`;
    const folds = (mountain: boolean) =>
      data(net.scores.filter(s => s.angle < 0 === mountain).map(s => s.path));
    const strokes = (o: 'draw' | 'perforate' | 'score' | 'cut') =>
      data(net.strokes.filter(s => s.operation === o).map(s => s.path));
    return [
      `<path fill="${hex(paper)}" fill-rule="evenodd" d="${data([net.outline, ...net.holes])}"/>`,
      line(folds(false) + strokes('score'), operations.score.colour, dashed('3 1.8')),
      line(folds(true), operations.score.colour, dashed('4 1.5 .8 1.5')),
      line(strokes('draw'), operations.draw.colour),
      line(strokes('perforate'), operations.perforate.colour, dashed('1.2 1.2')),
      line(data([net.outline, ...net.holes, ...net.slits]) + strokes('cut'), operations.cut.colour),
    ].join('');
  });
  const width = x - GAP_MM + MARGIN_MM;
  return document(width, top + 2 * MARGIN_MM, `<g stroke-width=".5">${parts.join('')}</g>`);
}

/** Share of the picture left round a decoration, and how far a layer's shadow falls, of its width. */
const LOOSE_MARGIN = 0.12;
const SHADOW = 0.006;

/** Layers as they lie on each other, on a table. Throws where there are none. */
export function loosePicture(decals: readonly Decal[], widthPx: number): string {
  if (decals.length === 0) throw new RangeError('nothing of the decoration is seen');
  const b = bounds(...decals.map(d => transform(d.piece.outline, d.at)));
  const margin = LOOSE_MARGIN * Math.max(b.maxX - b.minX, b.maxY - b.minY);
  const frame = translation(margin - b.minX, -margin - b.maxY);
  const width = b.maxX - b.minX + 2 * margin;
  const height = b.maxY - b.minY + 2 * margin;
  const parts = decals.map(({ piece, at, colour, lift }, i) => {
    const on = compose(frame, at);
    const cut = (by: Affine) =>
      [piece.outline, ...piece.holes].map(p => previewPath(transform(p, by))).join('');
    const fall = SHADOW * width + lift * FOAM_FALL;
    const shadow = cut(compose(translation(fall * 0.7, -fall), on));
    const lines = piece.strokes.filter(s => s.operation === 'draw' || s.operation === 'score');
    const art = piece.art ? artPaths(piece.art, on, 0) : [];
    const ground = art[0] && art[0].colour !== '#ffffff' ? art[0].colour : colour;
    return [
      `<path fill="#2b1d10" fill-opacity=".22" fill-rule="evenodd" d="${shadow}"/>`,
      `<path fill="${hex(ground)}" fill-rule="evenodd" d="${cut(on)}"/>`,
      art.length > 1
        ? `<clipPath id="c${i}"><path clip-rule="evenodd" d="${cut(on)}"/></clipPath>` +
          `<g clip-path="url(#c${i})">${art
            .slice(1)
            .map(({ colour: c, d }) => `<path fill="${hex(c)}" d="${d}"/>`)
            .join('')}</g>`
        : '',
      ...lines.map(
        s =>
          `<path fill="none" stroke="#5b4a3c" stroke-width=".35" d="${previewPath(transform(s.path, on))}"/>`,
      ),
    ].join('');
  });
  const table = `<rect width="${num(width)}" height="${num(height)}" fill="#efe8dc"/>`;
  return document(width, height, table + parts.join(''), widthPx);
}

function document(width: number, height: number, inner: string, widthPx?: number): string {
  const size = widthPx
    ? `width="${widthPx}" height="${Math.round((widthPx * height) / width)}"`
    : `width="${num(width)}mm" height="${num(height)}mm"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${num(width)} ${num(height)}">${inner}</svg>\n`;
}
