/**
 * Cut files in DXF: one layer an operation, millimetres. R12 by default (`dxf-r12.ts`); R2000
 * (`dxf-r2000.ts`), with cubics as arcs or as splines, where the importing software wants it.
 */
import type { CutWriter } from '../contracts.js';
import { apply, bounds, polyline, transform } from '../geom/index.js';
import type { Affine, Convention, Drawing, Importing } from '../model.js';
import { PLAIN_IMPORT } from '../model.js';
import { r12 } from './dxf-r12.js';
import { r2000 } from './dxf-r2000.js';
import { type DxfSheet, settle, shapeOf } from './dxf-settle.js';
import { inWorkingOrder } from './svg.js';

/** R12 layer names: capitals, digits, `$ - _`, 31 characters at most. Anything else (a line break
 *  would start a tag of its own) throws. */
export function layerName(name: string): string {
  const upper = name.toUpperCase();
  if (!/^[A-Z0-9$_-]{1,31}$/.test(upper))
    throw new RangeError(`layer name ${JSON.stringify(name)}`);
  return upper;
}

function aciOf(aci: number, operation: string): string {
  if (!(Number.isInteger(aci) && aci >= 1 && aci <= 255)) {
    throw new RangeError(`colour index of ${operation}: ${aci}; AutoCAD's run from 1 to 255`);
  }
  return String(aci);
}

/** From the sheet to the file's numbers: where they begin, and which way y counts. */
function toFile({ width, height }: Drawing, { origin, y }: Importing): Affine {
  const [ox, oy] = {
    'lower-left': [0, 0],
    'upper-left': [0, height],
    middle: [width / 2, height / 2],
  }[origin] as [number, number];
  return y === 'up' ? [1, 0, 0, 1, -ox, -oy] : [1, 0, 0, -1, -ox, oy];
}

function sheetOf(given: Drawing, convention: Convention, importing: Importing): DxfSheet {
  const at = toFile(given, importing);
  const drawing: Drawing = {
    ...given,
    layers: given.layers.map(l => ({ ...l, paths: l.paths.map(p => transform(p, at)) })),
  };
  const curves = importing.dxf === 'r2000-splines' ? 'splines' : 'arcs';
  const layers = inWorkingOrder(drawing)
    .map(({ operation, paths }) => ({
      name: layerName(operation),
      aci: aciOf(convention.operations[operation].aci, operation),
      paths: paths.map(p => settle(p, curves)).filter(p => p !== undefined),
    }))
    .filter(layer => layer.paths.length > 0);
  const [low, high] = [apply(at, [0, 0]), apply(at, [drawing.width, drawing.height])];
  const all = layers.flatMap(l => l.paths);
  const box = all.length > 0 ? bounds(...all) : bounds(polyline([low, high]));
  return {
    low,
    high,
    extent: { least: [box.minX, box.minY], most: [box.maxX, box.maxY] },
    layers: layers.map(({ name, aci, paths }) => ({ name, aci, shapes: paths.map(shapeOf) })),
  };
}

function write(
  drawing: Drawing,
  convention: Convention,
  importing: Importing = PLAIN_IMPORT,
): string {
  const sheet = sheetOf(drawing, convention, importing);
  return importing.dxf === 'r12' ? r12(sheet) : r2000(sheet);
}

export const dxf: CutWriter = {
  id: 'dxf',
  summary: 'DXF R12 or R2000, arcs as arcs, one layer an operation, millimetres',
  extension: 'dxf',
  write,
};
