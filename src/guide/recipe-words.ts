/** A recipe in words, line by line. */
import type { HandRounding, Point } from '../model.js';
import { formatLength } from '../units/length.js';
import type { Mark, Mitre, Recipe, Side } from './recipe.js';
import type { Cell } from './waste.js';

type Unit = 'mm' | 'in';

/** Inches to a 32nd: half of the finest mark on most rulers. */
const say = (mm: number, unit: Unit) => formatLength(mm, unit, 32);
const bare = (mm: number, unit: Unit) => say(mm, unit).replace(/ (?:in|mm)$/, '');
const size = (sides: readonly number[], unit: Unit) =>
  `${sides.map(s => bare(s, unit)).join(' x ')} ${unit}`;

export function recipeLines(r: Recipe, unit: Unit): string[] {
  const { width, height } = r.blank;
  return [
    `${r.title} (${r.net}): cut a blank of ${size([width, height], unit)}. The side that faces you will be inside.`,
    ...sideLines(`Lay its ${say(width, unit)} side along the fence.`, r.first, height, unit),
    ...sideLines('Turn it a quarter clockwise.', r.second, width, unit),
    ...list(
      'Turn it back. Cut away, from the left and from below:',
      r.away.map(c => cellWords(c, unit)),
    ),
    ...list(
      'Cut straight, from the left and from below:',
      r.slants.map(s => `from ${pointWords(s.from, unit)} to ${pointWords(s.to, unit)}`),
    ),
    ...list(
      'Lean in the sides of the flaps, over their whole depth, with the fold below:',
      r.mitres.map(m => `${m.panel} (${say(m.depth, unit)} deep): ${leanWords(m, unit)}`),
    ),
  ];
}

function sideLines(begin: string, { scores, cuts }: Side, across: number, unit: Unit): string[] {
  if (scores.length + cuts.length === 0) return [];
  const at = (fold: Mark['fold']) =>
    // Lines that differ by less than a ruler shows are one mark to a person.
    [...new Set(scores.filter(m => m.fold === fold).map(m => bare(m.at, unit)))];
  const [whole, back] = [at('valley'), at('mountain')];
  const valleys = whole.length > 0 ? ` Score at ${whole.join(', ')} ${unit}.` : '';
  const mountains =
    back.length > 0 ? ` Score at ${back.join(', ')} ${unit} to fold away from you.` : '';
  const parts = scores.filter(m => !crosses(m, across));
  return [
    `${begin}${valleys}${mountains}`,
    ...list(
      'Only a part of these, measured from below:',
      parts.map(m => `${bare(m.at, unit)}: ${runWords(m.runs, unit)}`),
    ),
    ...list(
      'Cut along:',
      cuts.map(m => `${bare(m.at, unit)}: ${runWords(m.runs, unit)}`),
    ),
  ];
}

/** To half a millimetre: the sides of a flap are cut by eye. */
function leanWords({ left, right }: Mitre, unit: Unit): string {
  const [l, r] = [left, right].map(v => (unit === 'mm' ? Math.round(2 * v) / 2 : v)) as [
    number,
    number,
  ];
  if (bare(l, unit) === bare(r, unit)) return `${say(l, unit)} on either side`;
  const sides = [l > 0 && `${say(l, unit)} on the left`, r > 0 && `${say(r, unit)} on the right`];
  return sides.filter(s => s).join(', ');
}

/** Whether a score runs from edge to edge, within half a millimetre. */
const crosses = ({ runs }: Mark, across: number): boolean =>
  runs.length === 1 && runs[0]![0] < 0.5 && runs[0]![1] > across - 0.5;

const runWords = (runs: Mark['runs'], unit: Unit): string =>
  runs.map(([from, to]) => `${bare(from, unit)} to ${say(to, unit)}`).join(', ');

const cellWords = ({ x, y }: Cell, unit: Unit): string =>
  `${bare(x[0], unit)} to ${say(x[1], unit)} across, ${bare(y[0], unit)} to ${say(y[1], unit)} up`;

const pointWords = ([x, y]: Point, unit: Unit): string =>
  `${bare(x, unit)} across, ${say(y, unit)} up`;

const list = (head: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [head, ...lines.map(l => `  ${l}`)];

/** How a box differs from the one asked for. */
export function roundingWords({ step, creases, clear, set }: HandRounding, unit: Unit): string {
  const three = ({ length, width, height }: HandRounding['clear']) =>
    size([length, width, height], unit);
  const params = Object.entries(set).map(([name, mm]) => `${name} ${say(mm, unit)}`);
  const and = params.length > 0 ? `; set to marks: ${params.join(', ')}` : '';
  return `rounded to marks of ${say(step, unit)}: ${three(creases)} crease to crease, about ${three(clear)} inside${and}`;
}
