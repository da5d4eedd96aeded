/** What `fit` says of its answer. */
import { arrangementWords, treatWords } from '../fit/index.js';
import type { FitAnswer, FittedBox } from '../job/index.js';
import type { Arrangement, Inside, ParamValue, ParamValues } from '../model.js';
import { formatLength, MM_PER_INCH, roundToFraction } from '../units/length.js';
import { CLOSE_MM } from '../units/tolerances.js';

/** Lengths as the person writes them. Insides are rounded to 1/32 in; what is no such fraction (a
 *  clearance of 1 mm) is told in millimetres. */
export const writeMm =
  ({ unit }: Pick<FitAnswer, 'unit'>) =>
  (mm: number): string => {
    const fraction = roundToFraction(mm, 32).mm;
    if (unit === 'in' && Math.abs(fraction - mm) < CLOSE_MM) return formatLength(mm, 'in', 32);
    return formatLength(Math.round(mm * 10) / 10, unit === 'cm' ? 'cm' : 'mm');
  };

const sidesOf = ({ length, width, height }: Inside) => [length, width, height];

/** `83 x 64 x 41 mm`: the unit once. */
export function sizeText(inside: Inside, answer: FitAnswer): string {
  const sides = sidesOf(inside).map(writeMm(answer));
  return sides.map((s, i) => (i < 2 ? s.replace(/ (?:mm|cm|in)$/, '') : s)).join(' x ');
}

/** The same in one word, as an option takes it: `3-1/4x2-1/2x1-5/8in`. */
const sizeOption = (inside: Inside, answer: FitAnswer): string =>
  sidesOf(inside)
    .map(writeMm(answer))
    .map((s, i) => (i < 2 ? s.replace(/ (?:mm|cm|in)$/, '') : s))
    .map(s => s.replace(/ (?=\d)/, '-').replace(' ', ''))
    .join('x');

/** Paper of one box: square centimetres, or square inches. */
export const paperText = (mm2: number, { unit }: FitAnswer): string =>
  unit === 'in' ? `${(mm2 / MM_PER_INCH ** 2).toFixed(1)} in2` : `${Math.round(mm2 / 100)} cm2`;

/** How many boxes come from a sheet. */
function sheetText({ box }: FittedBox): string {
  const { perSheet, sheets } = box.yield;
  if (perSheet > 0) return perSheet === 1 ? '1 box' : `${perSheet} boxes`;
  return sheets === undefined ? 'none: too big' : `1 box on ${sheets}`;
}

function sheetSentence({ box }: FittedBox): string {
  const { perSheet, sheets } = box.yield;
  if (perSheet > 0) return `a sheet gives ${perSheet === 1 ? 'one box' : `${perSheet} boxes`}`;
  return sheets === undefined ? 'too big for a sheet' : `a box takes ${sheets} sheets`;
}

/** The treat with its clearance, as a line. */
export function askedText(answer: FitAnswer): string {
  const { treat } = answer;
  const mm = writeMm(answer);
  const apart = treat.apart > treat.clearance ? `, ${mm(treat.apart)} apart` : '';
  return `${treatWords(treat, mm)}; ${mm(treat.clearance)} clear all round${apart}`;
}

export function boxesText(answer: FitAnswer, shown: number, chosen: number): string {
  const { stock, cutter } = answer;
  const boxes = answer.boxes.slice(0, shown);
  const rows = boxes.map((fitted, i) => [
    String(i + 1),
    fitted.box.style.id,
    sizeText(fitted.box.inside, answer),
    arrangementWords(fitted.box.arrangement()),
    sheetText(fitted),
    paperText(fitted.box.paper, answer),
  ]);
  const head = ['', 'style', 'inside', 'the pieces', 'a sheet gives', 'paper'];
  const lines = [
    `${askedText(answer)}.`,
    `Paper: ${stock.summary}; cutter: ${cutter.summary}.`,
    '',
    ...table([head, ...rows]),
  ];
  const more = answer.boxes.length - boxes.length;
  if (more > 0) lines.push(`  and ${more} more: --most ${answer.boxes.length}`);
  if (answer.refused.length > 0) {
    const told = answer.refused.map(r => `  ${r.style}: ${r.reason}`);
    lines.push('', 'Not for this treat:', ...told);
  }
  if (answer.boxes.every(b => b.box.yield.sheets === undefined)) {
    lines.push('', 'None of them fits a sheet: choose a larger stock and cutter, or fewer pieces.');
  }
  lines.push('', ...makeLines(answer, chosen));
  return lines.join('\n');
}

/** Columns under their heads; numbers and measures to the right. */
function table(rows: readonly (readonly string[])[]): string[] {
  const wide = rows[0]!.map((_, k) => Math.max(...rows.map(r => r[k]!.length)));
  const right = new Set([0, 2, 5]);
  return rows.map(row =>
    `  ${row.map((s, k) => (right.has(k) ? s.padStart(wide[k]!) : s.padEnd(wide[k]!))).join('  ')}`.trimEnd(),
  );
}

/** The commands that make a box of the answer. */
function makeLines(answer: FitAnswer, chosen: number): string[] {
  const fitted = answer.boxes[chosen - 1]!;
  const { stock, cutter } = answer;
  const paper = `--stock ${stock.id} --cutter ${cutter.id}`;
  const size = `--inside ${sizeOption(fitted.box.inside, answer)}`;
  const lines = [
    `To make number ${chosen}:`,
    `  foldwright box ${fitted.box.style.id} ${size} ${paper}`,
  ];
  if (fitted.insert) {
    const set = settings(fitted.insert.values);
    lines.push(`  foldwright box ${fitted.insert.style} ${size}${set} ${paper}`);
  }
  return lines;
}

const settings = (values: ParamValues): string =>
  Object.entries(values)
    .filter(([, value]) => value !== false)
    .map(([name, value]) => ` --set ${name}=${settingText(value)}`)
    .join('');

const settingText = (value: ParamValue): string =>
  typeof value === 'number'
    ? String(Math.round(value * 10) / 10)
    : value === true
      ? 'yes'
      : `${value}`;

/** How many go into a box that the person has. */
export function intoText(answer: FitAnswer): string {
  const { inside, fullest } = answer.into!;
  const { count, arrangement } = fullest;
  const box = sizeText(inside, answer);
  if (count === 0)
    return `Not one goes into ${box} (${askedText({ ...answer, treat: one(answer) })}).`;
  const lines = [`${count} ${count === 1 ? 'goes' : 'go'} into ${box}.`];
  if (arrangement) {
    lines.push(`  ${arrangementWords(arrangement)}`);
    lines.push(`  They take up ${sizeText(arrangement.inside, answer)} of it.`);
  } else lines.push('  More than anyone lays out one by one: go by weight.');
  if (count < answer.treat.count) lines.push(`  ${answer.treat.count} were asked for.`);
  return lines.join('\n');
}
const one = ({ treat }: FitAnswer) => ({ ...treat, count: 1 });

/** The words on a picture. */
export function captions(
  answer: FitAnswer,
  arrangement: Arrangement,
  fitted: FittedBox | undefined,
): { readonly title: string; readonly note: string } {
  const treat = { ...answer.treat, count: arrangement.treat.count };
  const sheet = fitted ? `; ${sheetSentence(fitted)}` : '';
  const size = sizeText(fitted?.box.inside ?? answer.into!.inside, answer);
  return {
    title: `${treatWords(treat, writeMm(answer))}: ${arrangementWords(arrangement)}`,
    note: `${fitted ? `${fitted.box.style.id}, ` : ''}inside ${size}${sheet}`,
  };
}
