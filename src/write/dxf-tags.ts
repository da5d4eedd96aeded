/**
 * The tags of a DXF file, checked before a parser sees them. The npm parser runs for ever on a POLYLINE
 * without vertices, reserves what a LWPOLYLINE's count asks for, and lets NaN through; so only whole
 * entities of known kinds, with the codes that we use in a safe order, are handed on.
 */
import { ReadError } from './read-error.js';

export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}
/** One entity: its kind, and the tags after it. */
export interface Entity {
  readonly kind: string;
  readonly line: number;
  readonly tags: readonly Tag[];
}
export interface DxfFile {
  readonly header: ReadonlyMap<string, readonly Tag[]>;
  /** Colour index of each layer. */
  readonly layers: ReadonlyMap<string, number>;
  readonly entities: readonly Entity[];
}

const ADVICE = 'save it again as DXF R12 or R2000, in ASCII';
const wrong = (what: string, line: number) => new ReadError(what, `line ${line}`, ADVICE);

const MOST_TAGS = 3e6;

/** Throws `ReadError` on anything but pairs of group code and value that end with EOF. */
function* tagsOf(source: string): Generator<Tag> {
  let at = 0;
  let line = 1;
  const next = (): string | undefined => {
    if (at >= source.length) return undefined;
    let end = source.indexOf('\n', at);
    if (end < 0) end = source.length;
    const text = source.slice(at, end).replace(/\r$/, '');
    at = end + 1;
    return text;
  };
  for (let count = 0; count <= MOST_TAGS; count++, line += 2) {
    const code = next()?.trim();
    const value = next();
    if (code === undefined || value === undefined) throw wrong('it breaks off before EOF', line);
    if (!/^-?\d{1,4}$/.test(code)) {
      throw wrong(`${JSON.stringify(code.slice(0, 20))} is no group code`, line);
    }
    const tag = { code: Number(code), value: value.trim(), line };
    if (isReal(tag.code) && !isNumber(tag.value)) {
      throw wrong(`${JSON.stringify(tag.value.slice(0, 20))} is no number`, line + 1);
    }
    yield tag;
    if (tag.code === 0 && tag.value === 'EOF') return;
  }
  throw new ReadError(`more than ${MOST_TAGS} tags`, '', 'divide the drawing among several files');
}

/** Codes whose values are decimals (ezdxf, docs/source/dxfinternals/dxftypes.rst). */
const isReal = (code: number) =>
  (code >= 10 && code <= 59) || (code >= 140 && code <= 149) || (code >= 210 && code <= 239);

const isNumber = (value: string) =>
  /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/.test(value) && Number.isFinite(Number(value));

/** Reads header, layer colours and entities. Blocks, objects and other sections are passed over. */
export function readTags(source: string): DxfFile {
  if (source.startsWith('AutoCAD Binary DXF')) {
    throw new ReadError('a binary DXF', '', 'save it as an ASCII DXF');
  }
  const header = new Map<string, Tag[]>();
  const layers = new Map<string, number>();
  const entities: { kind: string; line: number; tags: Tag[] }[] = [];
  let section = '';
  let opening = false;
  let variable: Tag[] | undefined;
  let layer: string | undefined;
  let inLayer = false;
  for (const tag of tagsOf(source)) {
    const { code, value } = tag;
    if (code === 0) {
      opening = value === 'SECTION';
      if (value === 'ENDSEC') section = '';
      else if (section === 'ENTITIES') entities.push({ kind: value, line: tag.line, tags: [] });
      inLayer = section === 'TABLES' && value === 'LAYER';
      layer = undefined;
    } else if (opening && code === 2) {
      section = value;
      opening = false;
    } else if (section === 'HEADER') {
      if (code === 9) {
        variable = [];
        header.set(value, variable);
      } else variable?.push(tag);
    } else if (inLayer) {
      if (code === 2) layer = value;
      if (code === 62 && layer !== undefined) layers.set(layer, Math.abs(Number(value)));
    } else if (section === 'ENTITIES') {
      entities.at(-1)?.tags.push(tag);
    }
  }
  return { header, layers, entities };
}

/** The first value of a code, as a number. */
export function numberOf(tags: readonly Tag[], code: number): number | undefined {
  const tag = tags.find(t => t.code === code);
  const value = tag ? Number(tag.value) : Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

/** The codes that mean something to us, for each kind that we read. */
const CODES: Readonly<Record<string, readonly number[]>> = {
  LINE: [10, 20, 11, 21],
  ARC: [10, 20, 40, 50, 51],
  CIRCLE: [10, 20, 40],
  ELLIPSE: [10, 20, 11, 21, 40, 41, 42],
  POLYLINE: [70],
  VERTEX: [10, 20, 42, 70],
  LWPOLYLINE: [10, 20, 42],
  SPLINE: [40, 10, 20],
};
const isKnown = (kind: string): boolean => Object.hasOwn(CODES, kind) && kind !== 'VERTEX';

/** An entity that the parser may see, with the vertices of a POLYLINE. */
export interface Whole {
  readonly entity: Entity;
  readonly vertices: readonly Entity[];
}

/** Puts vertices to their polylines; what belongs to no polyline is left out. Kinds that we do not
 *  read are named apart. */
export function wholeEntities(file: DxfFile): { whole: Whole[]; unknown: string[] } {
  const whole: { entity: Entity; vertices: Entity[] }[] = [];
  const unknown: string[] = [];
  let owner: Entity[] | undefined;
  for (const entity of file.entities) {
    if (entity.kind === 'VERTEX') {
      owner?.push(entity);
      continue;
    }
    owner = undefined;
    if (entity.kind === 'SEQEND' || entity.kind === 'EOF') continue;
    if (!isKnown(entity.kind)) {
      unknown.push(entity.kind);
      continue;
    }
    const vertices: Entity[] = [];
    if (entity.kind === 'POLYLINE') owner = vertices;
    whole.push({ entity, vertices });
  }
  return { whole, unknown };
}

/** The entities, one for one, as a DXF that holds nothing else. Throws `ReadError` when a value is
 *  missing that its entity cannot do without. */
export function safeText(whole: readonly Whole[]): string {
  const lines = ['0', 'SECTION', '2', 'ENTITIES'];
  for (const { entity, vertices } of whole) {
    putEntity(entity, lines);
    for (const vertex of vertices) putEntity(vertex, lines);
    if (entity.kind === 'POLYLINE') lines.push('0', 'SEQEND', '8', '0');
  }
  lines.push('0', 'ENDSEC', '0', 'EOF');
  return lines.join('\n');
}

function putEntity({ kind, tags, line }: Entity, lines: string[]): void {
  const put = (code: number, value: string | number) => lines.push(String(code), String(value));
  const known = CODES[kind]!;
  const kept = tags.filter(t => known.includes(t.code));
  for (const code of known) {
    if (code !== 42 && code !== 70 && !kept.some(t => t.code === code)) {
      throw wrong(`${kind} without group ${code}`, line);
    }
  }
  put(0, kind);
  put(8, '0');
  if (kind === 'LWPOLYLINE') {
    put(90, kept.filter(t => t.code === 10).length);
    put(70, numberOf(tags, 70) ?? 0);
  } else if (kind === 'SPLINE') {
    put(70, numberOf(tags, 70) ?? 0);
    put(71, numberOf(tags, 71) ?? 0);
  }
  // These have one value for each code: the first, and in our order, as the parser wants an x followed by
  // its y. Others have a list of places.
  const single = kind !== 'VERTEX' && kind !== 'LWPOLYLINE' && kind !== 'SPLINE';
  const told = single ? known.flatMap(code => kept.find(t => t.code === code) ?? []) : kept;
  for (const [i, { code, value }] of told.entries()) {
    if (kind === 'SPLINE' && (code === 10) !== (told[i + 1]?.code === 20)) {
      throw wrong('SPLINE with an x or a y alone', line);
    }
    put(code, value);
    // Without a z after it the parser steps back over the next tag.
    if ((code === 20 || code === 21) && kind !== 'VERTEX' && kind !== 'LWPOLYLINE') {
      put(code + 10, 0);
    }
  }
}
