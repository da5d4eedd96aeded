/** From the facts of a guide to what stands on its pages, in the words of one language. */
import { bounds } from '../geom/index.js';
import {
  type GuidePage,
  LEGEND,
  type LegendMark,
  type Lettered,
  type Pattern,
  type PatternWords,
  type StepsWords,
  type StepWords,
} from '../guide-model.js';
import type { PieceName } from '../model.js';
import { formatLength } from '../units/length.js';
import { ENGLISH, type Words } from '../words/english.js';
import type {
  DecoratingStep,
  Guide,
  GuidePattern,
  GuideStep,
  LayerRow,
  Materials,
} from './facts.js';
import { asTold, bare, bought, sizeOf } from './lengths.js';
import { partName, pieceName } from './names.js';
import { noRecipeWords, recipeLines } from './recipe-words.js';
import { stepText } from './step-words.js';

export function guidePage(guide: Guide, words: Words = ENGLISH): GuidePage {
  const { title, job, unit, cuts, cautions } = guide;
  const whole = guide.closed ?? guide.decorating[0]?.view;
  return {
    lang: words.lang,
    name: guide.item,
    job,
    title,
    lines: linesOf(guide, words),
    ...(whole && { closed: { of: whole, told: words.closed(title) } }),
    needs: { title: words.needs, groups: needsOf(guide, words) },
    pieces: {
      title: words.pieces,
      head: words.piecesHead,
      rows: cuts.map(row => ({
        cells: [
          pieceName(row.piece.name, words),
          String(row.count),
          row.paper,
          sizeOf(row.size, unit),
          words.how(row.print, row.score, row.draw, row.back),
        ],
        piece: row.piece,
        colour: row.colour,
      })),
      more: words.more,
      notes: cuts.some(c => c.back) ? [words.turnedOver] : [],
    },
    ...patternsOf(guide, words),
    ...byHandOf(guide, words),
    ...stepsOf(guide, words),
    ...decoratingOf(guide, words),
    scale: { title: words.scale, text: words.scaleText, labels: words.scaleLabels },
    care: { title: words.care, items: cautions.map(c => words.cautions[c]) },
    foot: words.foot,
  };
}

function linesOf({ inside, outside, round, unit, count }: Guide, words: Words): string[] {
  const clear = inside?.every(v => v > 0) ? inside : undefined;
  const sizes = [
    clear &&
      (round
        ? words.insideRound(asTold(clear[0], unit), asTold(clear[2], unit))
        : words.inside(sizeOf(clear, unit))),
    outside && words.outside(sizeOf(outside, unit)),
  ].filter(s => s !== undefined);
  return [...sizes, words.make(count)];
}

function needsOf(guide: Guide, words: Words): GuidePage['needs']['groups'] {
  const { unit, materials: m, cuts } = guide;
  const paper = m.papers.map(p =>
    words.paperRow(p.sheets, p.id, words.called(p.id, p.paper), Math.round(100 * p.used)),
  );
  if (m.cost !== undefined) paper.push(words.cost(m.cost.toFixed(2), m.priced));
  const groups = [
    { title: words.paper, items: paper },
    { title: words.sticking, items: stickingOf(m, unit, words) },
    { title: words.tools, items: words.toolsOf(cuts.some(c => c.score || c.back)) },
  ];
  return groups.filter(g => g.items.length > 0);
}

function stickingOf(m: Materials, unit: Guide['unit'], words: Words): string[] {
  return [
    ...(m.flaps > 0 ? [words.flaps(bought(m.flaps, unit))] : []),
    ...(m.layers > 0 ? [words.layers(bought(m.layers, unit))] : []),
    ...m.foam.map(f => words.foam(f.squares, formatLength(f.height, 'mm'))),
    ...m.closures.map(c => words.closure(c.means, c.count, asTold(c.diameter, unit))),
    ...(m.ribbon > 0 ? [words.ribbon(bought(m.ribbon, unit))] : []),
  ];
}

function patternsOf({ patterns, unit }: Guide, words: Words): Pick<GuidePage, 'patterns'> {
  if (patterns.length === 0) return {};
  const marks = new Set(patterns.flatMap(p => marksOf(p)));
  const unlettered = patterns.reduce((sum, p) => sum + p.unlettered, 0);
  return {
    patterns: {
      title: words.pattern,
      intro: words.patternIntro(unit),
      legend: LEGEND.filter(m => marks.has(m)).map(mark => ({ mark, text: words.legend[mark] })),
      nets: patterns.map(p => patternWords(p, unit, words)),
      notes: unlettered > 0 ? [words.unlettered(unlettered)] : [],
    },
  };
}

function marksOf({ pattern }: GuidePattern): LegendMark[] {
  return [
    'cut',
    ...pattern.lines.map(l => l.kind),
    ...pattern.glue.map(g => (g.face === 'inside' ? ('glue' as const) : ('back' as const))),
    ...(pattern.dots.length > 0 ? (['dot'] as const) : []),
  ];
}

function patternWords({ pattern }: GuidePattern, unit: Guide['unit'], words: Words): PatternWords {
  const { measures, lettered, panels, outline } = pattern;
  const title = titleOf(pattern, words);
  const b = bounds(outline);
  const told = (mm: number) => asTold(mm, unit);
  return {
    title: words.patternTitle(title, pattern.count),
    pattern: {
      of: pattern,
      told: words.patternTold(title, told(b.maxX - b.minX), told(b.maxY - b.minY)),
    },
    measures: measures.map(m => bare(m.to - m.from, unit)),
    lettered: lettered.map(l => letteredWords(l, unit, words)),
    names: panels.map(p => words.panel(p.id)),
  };
}

const titleOf = ({ parts }: Pattern, words: Words): string =>
  parts.map(p => partName(p, words)).join(', ');

function letteredWords(
  { letter, length, radius, rise, hole }: Lettered,
  unit: Guide['unit'],
  words: Words,
): string {
  const told = (mm: number) => asTold(mm, unit);
  if (hole) {
    const size = hole.round ? told(hole.size[0]) : sizeOf(hole.size, unit);
    const fold = hole.fromFold === undefined ? undefined : told(hole.fromFold);
    return words.hole(letter, size, hole.round, fold);
  }
  return rise === undefined
    ? words.lettered(letter, told(length), radius === undefined ? undefined : told(radius))
    : words.curved(letter, told(length), told(rise));
}

function byHandOf({ patterns, unit }: Guide, words: Words): Pick<GuidePage, 'byHand'> {
  if (patterns.length === 0) return {};
  const nets = patterns.flatMap(({ pattern, recipe }) =>
    'none' in recipe
      ? []
      : [{ title: titleOf(pattern, words), lines: recipeLines(recipe, unit, words) }],
  );
  const others = patterns.flatMap(({ pattern, recipe }) =>
    'none' in recipe
      ? [{ title: titleOf(pattern, words), why: noRecipeWords(recipe.none, words) }]
      : [],
  );
  const intro = nets.length > 0 ? words.byHandIntro : '';
  if (others.length > 0) {
    const titles = others.map(o => o.title);
    nets.push({ title: '', lines: [words.recipe.noneFor(titles, others[0]!.why)] });
  }
  return { byHand: { title: words.byHand, intro, nets } };
}

function stepsOf({ steps, inside, unit }: Guide, words: Words): { readonly steps?: StepsWords } {
  if (steps.length === 0) return {};
  const glue = steps.some(s => s.kind === 'fold' && s.view.glue.length > 0);
  const holds = inside?.every(v => v > 0) ?? false;
  const intro = [words.stepsIntro(glue), ...(holds ? [words.stepsRoom] : [])].join(' ');
  return {
    steps: { title: words.steps, intro, steps: steps.map((s, i) => stepWords(s, i, words, unit)) },
  };
}

function stepWords(step: GuideStep, i: number, words: Words, unit: Guide['unit']): StepWords {
  const text = stepText(step, words, unit);
  const picture = 'view' in step && step.view.parts.length > 0 ? step.view : undefined;
  return {
    text,
    layers: [],
    ...(picture && { picture: { of: picture, told: words.stepTold(i + 1) } }),
  };
}

/** Longer lists are for the manifest. */
const MOST_LAYERS = 120;

function decoratingOf(
  { decorating, closed }: Guide,
  words: Words,
): { readonly decorating?: StepsWords } {
  if (decorating.length === 0) return {};
  const steps = decorating.map(({ part, panel, face, layers, view }): StepWords => {
    const name = words.panel(panel);
    const lines = layersTold(layers, words);
    const over = lines.length - MOST_LAYERS;
    const told = over > 1 ? [...lines.slice(0, MOST_LAYERS), words.moreLayers(over)] : lines;
    return {
      text: panel === '' ? words.stack : words.face(name, face, part && partName(part, words)),
      layers: told,
      picture: { of: view, told: words.faceTold(panel === '' ? words.decorating : name) },
    };
  });
  const intro = closed ? words.decoratingIntro : words.decoratingAlone;
  return { decorating: { title: words.decorating, intro, steps } };
}

/** Layers in a row that are numbered one after the other come as one. */
function layersTold(layers: DecoratingStep['layers'], words: Words): string[] {
  const lines: string[] = [];
  for (let i = 0; i < layers.length; ) {
    const first = layers[i]!;
    let run = 1;
    while (i + run < layers.length && follows(first, layers[i + run]!, run)) run++;
    const numbered = numberedName(first.name);
    const lift = first.lift > 0 ? formatLength(first.lift, 'mm') : '';
    const asRun = numbered !== undefined && run >= LEAST_RUN;
    const name = asRun
      ? words.layerRun(numbered.stem, numbered.number, numbered.number + run - 1, numbered.layer)
      : pieceName(first.name, words);
    lines.push(words.layer(name, asRun ? 1 : first.copies, lift));
    i += asRun ? run : 1;
  }
  return lines;
}

/** Fewer stay apart. */
const LEAST_RUN = 3;

/** A decoration that a person has numbered: `heart-12`. */
function numberedName(name: PieceName) {
  if (!('decoration' in name) || name.number !== undefined || name.said !== undefined) return;
  const [, stem, number] = /^(.*)-(\d+)$/.exec(name.decoration) ?? [];
  return stem ? { stem, number: Number(number), layer: name.layer } : undefined;
}

function follows(first: LayerRow, next: LayerRow, by: number): boolean {
  const [a, b] = [numberedName(first.name), numberedName(next.name)];
  return (
    a !== undefined &&
    b !== undefined &&
    a.stem === b.stem &&
    a.layer === b.layer &&
    b.number === a.number + by &&
    first.lift === next.lift &&
    first.copies === 1 &&
    next.copies === 1
  );
}
