/**
 * Cut files in SVG, on plain strings. What stands in the file is listed in design.md section 5: one
 * `<g id>` an operation, only `<path>` with absolute M L C Z, attributes on the path itself.
 */
import type { CutWriter } from '../contracts.js';
import { arcsToCubics, scaling, transform } from '../geom/index.js';
import type { Convention, Drawing, Importing, Operation, Path, Point } from '../model.js';
import { OPERATIONS, PLAIN_IMPORT } from '../model.js';
import { MM_PER_INCH } from '../units/length.js';
import { finite, num } from './number.js';

/** Line width in mm, of the series in ISO 128. Cutters ignore it; people looking at the file do not. */
const LINE_WIDTH_MM = 0.25;

/** The paths of each operation that is present, in working order. */
export function inWorkingOrder(drawing: Drawing): { operation: Operation; paths: Path[] }[] {
  return OPERATIONS.map(operation => ({
    operation,
    paths: drawing.layers.filter(l => l.operation === operation).flatMap(l => l.paths),
  })).filter(layer => layer.paths.length > 0);
}

/**
 * Path data (mm, y down from `height`), or '' when every point of the path rounds to one. Segments
 * whose points all round to one are dropped; a closing straight segment becomes Z alone.
 */
export function pathData(path: Path, height: number): string {
  const at = ([x, y]: Point) => `${num(x)} ${num(height - y)}`;
  const start = at(path.start);
  let last = start;
  let data = '';
  for (const s of arcsToCubics(finite(path)).segments) {
    const to = at(s.to);
    if (s.kind === 'cubic') {
      const c1 = at(s.c1);
      const c2 = at(s.c2);
      if (to === last && c1 === last && c2 === last) continue;
      data += `C${c1} ${c2} ${to}`;
    } else {
      if (to === last) continue;
      data += `L${to}`;
    }
    last = to;
  }
  if (data === '') return '';
  const closing = `L${start}`;
  if (path.closed && data.endsWith(closing)) data = data.slice(0, -closing.length);
  return `M${start}${data}${path.closed ? 'Z' : ''}`;
}

/** The size stays in millimetres; the numbers may be in units of another length. */
function write(
  drawing: Drawing,
  convention: Convention,
  { svgUnits }: Importing = PLAIN_IMPORT,
): string {
  const k = svgUnits === undefined ? 1 : svgUnits / MM_PER_INCH;
  const width = num(k * drawing.width);
  const height = num(k * drawing.height);
  const lineWidth = num(k * LINE_WIDTH_MM);
  const scaled = (path: Path) => (k === 1 ? path : transform(path, scaling(k)));
  const groups = inWorkingOrder(drawing).map(({ operation, paths }) => {
    const style = `fill="none" stroke="${hex(convention.operations[operation].colour)}" stroke-width="${lineWidth}"`;
    const lines = paths
      .map(p => pathData(scaled(p), Number(height)))
      .filter(d => d !== '')
      .map(d => `<path ${style} d="${d}"/>\n`);
    return lines.length > 0 ? `<g id="${operation}">\n${lines.join('')}</g>\n` : '';
  });
  return (
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
    `<svg xmlns="http://www.w3.org/2000/svg" width="${num(drawing.width)}mm" height="${num(drawing.height)}mm" viewBox="0 0 ${width} ${height}">\n` +
    `${groups.join('')}</svg>\n`
  );
}

/** A colour of the convention as `#rrggbb`. Throws on anything else, so that no text from a
 *  preset ever reaches the file unchecked. */
export function hex(colour: string): string {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new RangeError(`colour ${colour}: write it #rrggbb`);
  return colour;
}

export const svg: CutWriter = {
  id: 'svg',
  summary: 'plain SVG, one unit a millimetre, one group an operation',
  extension: 'svg',
  write,
};
