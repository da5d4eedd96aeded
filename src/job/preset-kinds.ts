/** What the presets of machines, lines, marks and colours hold. The same readers serve preset files and a
 *  job's own entries,
 *  where `base` is the preset that the entry is `like`. */

import {
  BY_TOOL,
  type Convention,
  type Cutter,
  FOLD_SIDES,
  FOLD_WAYS,
  type Folding,
  MARK_SHAPES,
  type MarkStyle,
  OPERATIONS,
  type Operation,
  type StrokeStyle,
} from '../model.js';
import type { Entry } from './document.js';
import { SHEET_MM } from './preset-stock.js';
import { colourOf, coloursOf, countOf, lengthOf, numberOf } from './quantities.js';
import {
  ask,
  choiceOf,
  fields,
  listOf,
  type Reading,
  readUnits,
  titleOf,
  whole,
} from './reading.js';

const CUTTER_KEYS = ['summary', 'width', 'height', 'margin', 'blade', 'speed'] as const;
const BLADE_KEYS = ['offset', 'overcut', 'compensated-by'] as const;
/** Blades' offsets and beams' kerfs. */
const MOST_OFFSET_MM = 2;
const TOOL_KINDS = ['swivel', 'fixed', 'beam'] as const;
const FOLD_KEYS = ['by', 'dash', 'gap', 'passes', 'setback', 'sides'] as const;
const SPEEDS = [...OPERATIONS, 'travel'] as const;
const SPEED = { least: 0.1, most: 5000 };
const MARK_KEYS = ['summary', 'shape', 'size', 'stroke', 'inset', 'count'] as const;
/** Smaller than 4 mm is not found again in a scan at 150 dpi; thicker lines than 1 mm hide where their
 *  middles are. */
const MARK_MM = {
  size: { least: 4, most: 25 },
  stroke: { least: 0.1, most: 1 },
  inset: { least: 0, most: 50 },
};
const MARK_COUNT = { least: 5, most: 7 };

/** A machine. */
export function readCutter(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Cutter,
  keys: readonly string[] = ['units'],
): Cutter | undefined {
  const f = fields(
    r,
    entry,
    'a cutter',
    [...keys, ...CUTTER_KEYS, 'folds'],
    base ? [] : CUTTER_KEYS,
  );
  if (!f) return undefined;
  readUnits(r, f);
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary;
  const width = ask(f, 'width', e => lengthOf(r, e, 'width', SHEET_MM)) ?? base?.width;
  const height = ask(f, 'height', e => lengthOf(r, e, 'height', SHEET_MM)) ?? base?.height;
  const most = Math.min(width ?? SHEET_MM.most, height ?? SHEET_MM.most) / 3;
  const margin =
    ask(f, 'margin', e => lengthOf(r, e, 'margin', { least: 0, most })) ?? base?.margin;
  const blade = ask(f, 'blade', e => bladeOf(r, e, base)) ?? base?.blade;
  const speed = ask(f, 'speed', e => speedOf(r, e, base)) ?? base?.speed;
  const folds = f.get('folds') ? ask(f, 'folds', e => foldsOf(r, e, base)) : base?.folds;
  if (f.get('folds') && !folds) return undefined;
  const more = folds ? { folds } : {};
  return whole({ id, summary, width, height, margin, blade, speed, ...more });
}

/** What each kind of tool needs said. A fixed one (a tangential knife, a wheel) is turned by the machine;
 *  a beam burns a band away. */
const TOOL_KEYS = {
  swivel: ['offset', 'overcut', 'compensated-by'],
  fixed: [],
  beam: ['kerf', 'compensated-by'],
} as const;
/** Which of the kinds a blade is. */
export const toolKind = ({ offset, kerf }: Cutter['blade']): (typeof TOOL_KINDS)[number] =>
  kerf !== undefined ? 'beam' : offset > 0 ? 'swivel' : 'fixed';

function bladeOf(r: Reading, entry: Entry, base: Cutter | undefined): Cutter['blade'] | undefined {
  const said = entry.kind === 'map' ? entry.pairs.find(p => p.key === 'kind')?.value : undefined;
  const kind = said
    ? choiceOf(r, said, 'kind', TOOL_KINDS)
    : base
      ? toolKind(base.blade)
      : 'swivel';
  if (!kind) return undefined;
  // Of a tool like the preset's only what differs need be said. Offset 0 is a fixed tool by itself.
  const own = base && toolKind(base.blade) === kind ? base.blade : undefined;
  const known = kind === 'fixed' ? ['kind', ...BLADE_KEYS] : ['kind', ...TOOL_KEYS[kind]];
  const f = fields(r, entry, 'blade', known, own ? [] : TOOL_KEYS[kind]);
  if (!f) return undefined;
  const length = (key: string, most: number) =>
    ask(f, key, e => lengthOf(r, e, key, { least: 0, most }));
  const compensatedBy =
    ask(f, 'compensated-by', e => choiceOf(r, e, 'compensated-by', ['file', 'cutter'])) ??
    own?.compensatedBy;
  // Past 2 mm no drag blade is made (check values: 0.175 to 1); wider kerfs than 2 mm are no beam's.
  const offset = length('offset', MOST_OFFSET_MM);
  const overcut = length('overcut', 5);
  if (kind === 'beam') {
    const kerf = length('kerf', MOST_OFFSET_MM) ?? own?.kerf;
    return whole({ offset: 0, overcut: 0, compensatedBy, kerf });
  }
  if (kind === 'fixed') {
    if (said && offset !== undefined && offset > 0) {
      return r.fault(f.get('offset')!.at, `a fixed tool has no offset, not ${offset} mm`, {
        allowed: '0',
        hint: 'leave it out, or say kind: swivel',
      });
    }
    return whole({
      offset: offset ?? 0,
      overcut: overcut ?? own?.overcut ?? 0,
      compensatedBy: compensatedBy ?? 'file',
    });
  }
  return whole({
    offset: offset ?? own?.offset,
    overcut: overcut ?? own?.overcut,
    compensatedBy,
  });
}

/** How folds are made; what is not said is as with a scoring tool. */
function foldsOf(r: Reading, entry: Entry, base: Cutter | undefined): Folding | undefined {
  const f = fields(r, entry, 'folds', FOLD_KEYS, base?.folds ? [] : ['by']);
  if (!f) return undefined;
  const length = (key: 'dash' | 'gap' | 'setback', least: number, most: number) =>
    ask(f, key, e => lengthOf(r, e, key, { least, most })) ?? base?.folds?.[key] ?? BY_TOOL[key];
  const by = ask(f, 'by', e => choiceOf(r, e, 'by', FOLD_WAYS)) ?? base?.folds?.by;
  return whole({
    by,
    sides: f.get('sides')
      ? sidesOf(r, f.get('sides')!, by)
      : sided(by)
        ? (base?.folds?.sides ?? BY_TOOL.sides)
        : BY_TOOL.sides,
    // Shorter dashes hardly enter the paper, shorter gaps hardly hold it.
    dash: length('dash', 0.5, 20),
    gap: length('gap', 0.3, 20),
    setback: length('setback', 0, 5),
    passes:
      ask(f, 'passes', e => countOf(r, e, 'passes', { least: 1, most: 5 })) ??
      base?.folds?.passes ??
      BY_TOOL.passes,
  });
}

/** A pen's line and a dash are the same from either side. */
const sided = (by: Folding['by'] | undefined) =>
  by === undefined || by === 'tool' || by === 'light-cut';

function sidesOf(r: Reading, said: Entry, by: Folding['by'] | undefined) {
  const sides = choiceOf(r, said, 'sides', FOLD_SIDES);
  if (sides !== 'both' || sided(by)) return sides;
  return r.fault(said.at, `folds by ${by} are made from the face alone`, {
    allowed: 'face',
    hint: 'say by: tool or by: light-cut to score from both sides',
  });
}

function speedOf(r: Reading, entry: Entry, base: Cutter | undefined): Cutter['speed'] | undefined {
  const f = fields(r, entry, 'speed', SPEEDS, base ? [] : SPEEDS);
  if (!f) return undefined;
  const pairs = SPEEDS.map(key => [
    key,
    ask(f, key, e => numberOf(r, e, `speed of ${key} (mm/s)`, SPEED)) ?? base?.speed[key],
  ]);
  return whole(Object.fromEntries(pairs) as Record<Operation | 'travel', number | undefined>);
}

/** How strokes look. */
export function readConvention(
  r: Reading,
  entry: Entry,
  id: string,
  base?: Convention,
  keys: readonly string[] = [],
): Convention | undefined {
  const known = [...keys, 'summary', ...OPERATIONS];
  const f = fields(r, entry, 'a convention', known, base ? [] : ['summary', ...OPERATIONS]);
  if (!f) return undefined;
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary;
  const operations = whole(
    Object.fromEntries(
      OPERATIONS.map(o => [
        o,
        ask(f, o, e => strokeOf(r, e, o, base?.operations[o])) ?? base?.operations[o],
      ]),
    ) as Record<Operation, StrokeStyle | undefined>,
  );
  return whole({ id, summary, operations });
}

function strokeOf(
  r: Reading,
  entry: Entry,
  operation: Operation,
  base: StrokeStyle | undefined,
): StrokeStyle | undefined {
  const f = fields(r, entry, operation, ['colour', 'aci', 'dash'], base ? [] : ['colour', 'aci']);
  if (!f) return undefined;
  return whole({
    colour: ask(f, 'colour', e => colourOf(r, e, 'colour')) ?? base?.colour,
    aci: ask(f, 'aci', e => countOf(r, e, 'aci', { least: 1, most: 255 })) ?? base?.aci,
    dash: ask(f, 'dash', e => dashOf(r, e)) ?? base?.dash ?? [],
  });
}

/** Dash and gap lengths in mm, in pairs, or nothing for a continuous line. */
function dashOf(r: Reading, entry: Entry): readonly number[] | undefined {
  const items = listOf(r, entry, 'dash', 12);
  if (!items) return undefined;
  const dash = items.map(e => lengthOf(r, e, 'dash', { least: 0, most: 50, more: true }));
  if (dash.length % 2 === 1)
    return r.fault(entry.at, 'dash has a dash without its gap', {
      hint: 'give dashes and gaps in pairs',
    });
  return dash.every(d => d !== undefined) ? (dash as number[]) : undefined;
}

/** The register marks of printed sheets. */
export function readMarks(
  r: Reading,
  entry: Entry,
  id: string,
  base?: MarkStyle,
  keys: readonly string[] = ['units'],
): MarkStyle | undefined {
  const f = fields(r, entry, 'marks', [...keys, ...MARK_KEYS], base ? [] : MARK_KEYS);
  if (!f) return undefined;
  readUnits(r, f);
  const length = (key: 'size' | 'stroke' | 'inset') =>
    ask(f, key, e => lengthOf(r, e, key, MARK_MM[key])) ?? base?.[key];
  return whole({
    id,
    summary: ask(f, 'summary', e => titleOf(r, e, 'summary')) ?? base?.summary,
    shape: ask(f, 'shape', e => choiceOf(r, e, 'shape', MARK_SHAPES)) ?? base?.shape,
    size: length('size'),
    stroke: length('stroke'),
    inset: length('inset'),
    count: ask(f, 'count', e => countOf(r, e, 'count', MARK_COUNT)) ?? base?.count,
  });
}

export interface Palette {
  readonly id: string;
  readonly summary: string;
  /** Hex colours: the ground, then the inks. */
  readonly colours: readonly string[];
}

/** Colours for printed patterns. */
export function readPalette(r: Reading, entry: Entry, id: string): Palette | undefined {
  const keys = ['summary', 'ground', 'inks'];
  const f = fields(r, entry, 'a palette', keys, keys);
  if (!f) return undefined;
  const summary = ask(f, 'summary', e => titleOf(r, e, 'summary'));
  const ground = ask(f, 'ground', e => colourOf(r, e, 'ground'));
  const inks = ask(f, 'inks', e => coloursOf(r, e, 'inks'));
  return whole({ id, summary, colours: ground && inks ? [ground, ...inks] : undefined });
}
