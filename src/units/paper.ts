/** Paper weights and thicknesses as they stand on a packet. Grams a square metre and millimetres inside. */
import { MM_PER_INCH, type Read } from './length.js';

/**
 * Basis sizes in inches: basis weight is the mass in pounds of 500 sheets of this size (printwiki,
 * "Grammage"; bristol and index sizes: ivexsp, "Basis weight metric conversions").
 */
const BASIS = {
  bond: [17, 22],
  cover: [20, 26],
  bristol: [22.5, 28.5],
  index: [25.5, 30.5],
  tag: [24, 36],
  text: [25, 38],
} as const;
export type Grade = keyof typeof BASIS;
export const GRADES = Object.keys(BASIS) as Grade[];

const GRADE_WORDS: ReadonlyMap<string, Grade> = new Map<string, Grade>([
  ...GRADES.map(g => [g, g] as const),
  ['writing', 'bond'],
  ['ledger', 'bond'],
  ['book', 'text'],
  ['offset', 'text'],
  ['newsprint', 'tag'],
]);

const POUND_G = 453.59237;
/** Tissue to greyboard: outside this a weight is a slip of the pen. */
const LEAST_GSM = 10;
const MOST_GSM = 2000;
/** Tissue to thick greyboard, mm. */
const LEAST_CALIPER_MM = 0.02;
const MOST_CALIPER_MM = 5;

/** Grams a square metre of `pounds` basis weight: lb × 453.59237 / (500 × basis area in m²). */
export function basisToGsm(pounds: number, grade: Grade): number {
  const [w, h] = BASIS[grade];
  return (pounds * POUND_G) / (500 * w * h * (MM_PER_INCH / 1000) ** 2);
}

const tidy = (text: string): string =>
  text.slice(0, 80).normalize('NFKC').replace(/\s+/gu, ' ').trim().toLowerCase();

/**
 * Reads `65 lb cover`, `80lb text`, `110 lb index`, `20 lb bond`, `67 lb bristol`, `176 gsm`, `176 g/m2`.
 * Pounds without a grade are a fault: 110 lb cover is half as heavy again as 110 lb index.
 */
export function parseWeight(text: string): Read<{ readonly gsm: number }> {
  const shown = JSON.stringify(text.slice(0, 80));
  const how = `write it as on the packet: 176 gsm, or pounds with a grade (${GRADES.join(', ')}), such as 65 lb cover`;
  const match = /^(\d+(?:\.\d+)?) ?(gsm|g\/m2|g\/m\^2|g|lbs?|pounds?|#)\.?(?: ?([a-z]+))?$/.exec(
    tidy(text),
  );
  if (!match) return { fault: `${shown} is not a paper weight: ${how}` };
  const [, number, unit, word] = match;
  let gsm = Number(number);
  if (unit!.startsWith('g')) {
    if (word !== undefined) return { fault: `${shown} mixes grams with a grade: ${how}` };
  } else {
    const grade = GRADE_WORDS.get(word ?? '');
    if (!grade) {
      const why = word === undefined ? 'has no grade' : `has an unknown grade "${word}"`;
      return { fault: `${shown} ${why}, and a pound weighs differently in each: ${how}` };
    }
    gsm = basisToGsm(gsm, grade);
  }
  if (!(gsm >= LEAST_GSM && gsm <= MOST_GSM)) {
    return {
      fault: `${shown} is ${Number(gsm.toFixed(1))} g/m²: papers are from ${LEAST_GSM} to ${MOST_GSM} g/m²`,
    };
  }
  return { gsm };
}

/** Thickness in mm from grammage and bulk (specific volume, cm³/g): gsm × bulk / 1000 (ISO 534). */
export function caliperFromBulk(gsm: number, bulk: number): number {
  if (!(gsm > 0 && bulk > 0 && gsm * bulk < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`no caliper from ${gsm} g/m² and bulk ${bulk} cm³/g`);
  }
  return (gsm * bulk) / 1000;
}

const CALIPER_UNITS: ReadonlyMap<string, number> = new Map<string, number>([
  ['mm', 1],
  ...['µm', 'um', 'micron', 'microns'].map(w => [w.normalize('NFKC'), 0.001] as const),
  // One point of paper thickness is one mil, a thousandth of an inch: not the printer's point.
  ...['pt', 'pts', 'point', 'points', 'mil', 'mils'].map(w => [w, MM_PER_INCH / 1000] as const),
  ...['in', 'inch', '"'].map(w => [w, MM_PER_INCH] as const),
]);

/** Reads the thickness of one sheet: `0.3mm`, `300 µm`, `12pt` (thousandths of an inch), `0.012in`. */
export function parseCaliper(text: string): Read<{ readonly mm: number }> {
  const shown = JSON.stringify(text.slice(0, 80));
  const how = 'write 0.3mm, 300 µm, 12pt (thousandths of an inch) or 0.012in';
  const match = /^(\d+(?:\.\d+)?|\.\d+) ?(\p{L}+|")$/u.exec(tidy(text));
  const perUnit = CALIPER_UNITS.get(match?.[2] ?? '');
  if (!match || perUnit === undefined) return { fault: `${shown} is not a thickness: ${how}` };
  const mm = Number(match[1]) * perUnit;
  if (!(mm >= LEAST_CALIPER_MM && mm <= MOST_CALIPER_MM)) {
    return {
      fault: `${shown} is ${Number(mm.toFixed(4))} mm: one sheet is from ${LEAST_CALIPER_MM} to ${MOST_CALIPER_MM} mm; ${how}`,
    };
  }
  return { mm };
}
