/** A recipe in words, line by line. */
import type { HandRounding, Point } from '../model.js';
import { formatLength } from '../units/length.js';
import { ENGLISH, type Words } from '../words/english.js';
import { asTold } from './lengths.js';
import { partName } from './names.js';
import type { Mark, Mitre, NoRecipe, Recipe, Side } from './recipe.js';
import type { Cell } from './waste.js';

type Unit = 'mm' | 'in';
type RecipeWords = Words['recipe'];
type All = Pick<Words, 'recipe' | 'panel'>;

/** Inches to a 32nd: half of the finest mark on most rulers. Millimetres to a tenth, as in the drawing. */
const say = (mm: number, unit: Unit) =>
  unit === 'mm' ? asTold(mm, unit) : formatLength(mm, unit, 32);
const bare = (mm: number, unit: Unit) => say(mm, unit).replace(/ (?:in|mm)$/, '');
const size = (sides: readonly number[], unit: Unit) =>
  `${sides.map(s => bare(s, unit)).join(' x ')} ${unit}`;

/** Lines of a list begin with two spaces. */
export function recipeLines(r: Recipe, unit: Unit, all: Words = ENGLISH): string[] {
  const { recipe: words, panel } = all;
  const { width, height } = r.blank;
  return [
    words.blank(partName(r.part, all), size([width, height], unit)),
    ...sideLines(words.lay(say(width, unit)), r.first, height, unit, words),
    ...sideLines(words.turn, r.second, width, unit, words),
    ...list(
      words.away,
      r.away.map(c => cellWords(c, unit, words)),
    ),
    ...list(
      words.slants,
      r.slants.map(s =>
        words.slant(pointWords(s.from, unit, words), pointWords(s.to, unit, words)),
      ),
    ),
    ...list(
      words.mitres,
      r.mitres.map(m => words.mitre(panel(m.panel), say(m.depth, unit), leanWords(m, unit, words))),
    ),
  ];
}

/** Why there is no recipe. */
export function noRecipeWords(none: NoRecipe, { recipe, panel }: All = ENGLISH): string {
  if (none.why === 'slanted') return recipe.none.slanted(none.scores);
  return none.why === 'curved' ? recipe.none.curved : recipe.none[none.why](panel(none.panel));
}

function sideLines(
  begin: string,
  { scores, cuts }: Side,
  across: number,
  unit: Unit,
  words: RecipeWords,
): string[] {
  if (scores.length + cuts.length === 0) return [];
  const at = (fold: Mark['fold']) =>
    // Lines that differ by less than a ruler shows are one mark to a person.
    [...new Set(scores.filter(m => m.fold === fold).map(m => bare(m.at, unit)))];
  const [whole, back] = [at('valley'), at('mountain')];
  const valleys = whole.length > 0 ? words.valleys(`${whole.join(', ')} ${unit}`) : '';
  const mountains = back.length > 0 ? words.mountains(`${back.join(', ')} ${unit}`) : '';
  const parts = scores.filter(m => !crosses(m, across));
  return [
    `${begin}${valleys}${mountains}`,
    ...list(
      words.parts,
      parts.map(m => `${bare(m.at, unit)}: ${runWords(m.runs, unit, words)}`),
    ),
    ...list(
      words.cuts,
      cuts.map(m => `${bare(m.at, unit)}: ${runWords(m.runs, unit, words)}`),
    ),
  ];
}

/** To half a millimetre: the sides of a flap are cut by eye. */
function leanWords({ left, right }: Mitre, unit: Unit, words: RecipeWords): string {
  const [l, r] = [left, right].map(v => (unit === 'mm' ? Math.round(2 * v) / 2 : v)) as [
    number,
    number,
  ];
  if (bare(l, unit) === bare(r, unit)) return words.either(say(l, unit));
  const sides = [l > 0 && words.left(say(l, unit)), r > 0 && words.right(say(r, unit))];
  return sides.filter(s => s).join(', ');
}

/** Whether a score runs from edge to edge, within half a millimetre. */
const crosses = ({ runs }: Mark, across: number): boolean =>
  runs.length === 1 && runs[0]![0] < 0.5 && runs[0]![1] > across - 0.5;

const runWords = (runs: Mark['runs'], unit: Unit, words: RecipeWords): string =>
  runs.map(([from, to]) => words.run(bare(from, unit), say(to, unit))).join(', ');

const cellWords = ({ x, y }: Cell, unit: Unit, words: RecipeWords): string => {
  const run = ([from, to]: Cell['x']) => words.run(bare(from, unit), say(to, unit));
  return words.cell(run(x), run(y));
};

const pointWords = ([x, y]: Point, unit: Unit, words: RecipeWords): string =>
  words.cell(bare(x, unit), say(y, unit));

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
