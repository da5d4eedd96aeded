/**
 * Reads DXF to a drawing: our own files exactly, others as far as they hold lines, arcs, circles,
 * polylines, ellipses and splines in model space. The tags are checked first (dxf-tags.ts says why), then
 * `dxf-parser` reads the entities.
 */
import { boundsOf, scaling, transform } from '../geom/index.js';
import type { Path } from '../model.js';
import { MM_PER_INCH } from '../units/length.js';
import { entityPath } from './dxf-shapes.js';
import { type DxfFile, numberOf, readTags, safeText, wholeEntities } from './dxf-tags.js';
import { operationByAci, operationByName } from './operation-of.js';
import { checkSize, ReadError } from './read-error.js';
import { Gathering, MOST_CHARACTERS, type Reading, type ReadOptions, type Way } from './reading.js';

/** Millimetres in each unit of $INSUNITS (ezdxf, docs/source/concepts/units.rst). */
const UNIT_MM: Readonly<Record<number, number>> = {
  1: 25.4,
  2: 304.8,
  4: 1,
  5: 10,
  6: 1000,
  9: 0.0254,
  13: 0.001,
  14: 100,
};

/** Throws `ReadError` with what is wrong, where, and what to do. */
export async function readDxf(source: string, options: ReadOptions = {}): Promise<Reading> {
  checkSize(source, 2 * MOST_CHARACTERS, 'divide the drawing among several files');
  const file = readTags(source);
  const found = new Gathering();
  const said = unitOf(file);
  const unit = said ?? 1;
  const { whole, unknown } = wholeEntities(file);
  for (const kind of unknown) found.note(`${kind} was left out: draw it as lines and arcs`);

  // Its types promise a named export; the CommonJS module is the class itself.
  const module = await import('dxf-parser');
  const Parser = module.default as unknown as typeof module.DxfParser;
  const parsed = new Parser().parseSync(safeText(whole))?.entities ?? [];
  if (parsed.length !== whole.length) throw new Error('the DXF parser lost an entity');
  let ours = true;
  for (const [i, entity] of parsed.entries()) {
    const { tags, line, kind } = whole[i]!.entity;
    const where = `${kind} in line ${line}`;
    const path = entityPath(entity, (numberOf(tags, 230) ?? 1) < 0);
    if (typeof path === 'string') found.note(`${path} was left out: draw it as lines and arcs`);
    if (path === undefined || typeof path === 'string') continue;
    const layer = tags.find(t => t.code === 8)?.value ?? '0';
    const named = operationByName(layer);
    if (!named) ours = false;
    const aci = numberOf(tags, 62) ?? file.layers.get(layer);
    const operation = named ?? operationByAci(aci, options.convention) ?? 'cut';
    if (!named && !operationByAci(aci, options.convention)) {
      found.note(`a path on layer ${layer.slice(0, 40)} was taken as cut`);
    }
    found.add(operation, unit === 1 ? path : transform(path, scaling(unit)), where);
  }
  const byNumbers: readonly Way[] = [
    ['mm', 1],
    ['in', MM_PER_INCH],
  ];
  const ways: readonly Way[] = said === undefined ? byNumbers : [['size', said], ...byNumbers];
  return placed(file, found, ways, ours, options.name ?? '');
}

/** Millimetres of a unit; nothing where the file does not say. */
function unitOf({ header }: DxfFile): number | undefined {
  const code = numberOf(header.get('$INSUNITS') ?? [], 70) ?? 0;
  if (code === 0) return undefined;
  const mm = UNIT_MM[code];
  if (mm === undefined) {
    throw new ReadError(`$INSUNITS ${code}`, 'header', 'save the drawing in millimetres or inches');
  }
  return mm;
}

/** Our files give the sheet as their limits. Where a file does not, the drawing is moved to the corner
 *  of a sheet of its own size. */
function placed(
  { header }: DxfFile,
  found: Gathering,
  ways: readonly Way[],
  ours: boolean,
  name: string,
): Reading {
  const [[, unit]] = ways as readonly [Way];
  const corner = (variable: string): [number, number] => {
    const tags = header.get(variable) ?? [];
    return [unit * (numberOf(tags, 10) ?? Number.NaN), unit * (numberOf(tags, 20) ?? Number.NaN)];
  };
  const [lowX, lowY] = corner('$LIMMIN');
  const [highX, highY] = corner('$LIMMAX');
  const [width, height] = [highX - lowX, Math.abs(highY - lowY)];
  const all = found.all();
  const b = all.length > 0 ? boundsOf(all) : { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const limits = width > 0 && height > 0;
  const inside =
    b.minX >= lowX &&
    b.minY >= Math.min(lowY, highY) &&
    b.maxX <= highX &&
    b.maxY <= Math.max(lowY, highY);
  if (limits && (ours || (inside && lowX === 0 && lowY === 0))) {
    // A sheet whose upper corner has the smaller y was written with y down.
    const up = highY > lowY ? 1 : -1;
    const plain = lowX === 0 && lowY === 0 && up === 1;
    const back = (p: Path) => transform(p, [1, 0, 0, up, -lowX, -up * lowY]);
    return found.result(name, width, height, ways, plain ? undefined : back);
  }
  if (all.length === 0) throw new ReadError('nothing to cut in it', '', 'is this the right file?');
  found.note(
    'the file does not say its sheet: the drawing was moved to the corner of one of its own size',
  );
  const move = (p: Path) => transform(p, [1, 0, 0, 1, -b.minX, -b.minY]);
  return found.result(name, b.maxX - b.minX, b.maxY - b.minY, ways, move);
}
