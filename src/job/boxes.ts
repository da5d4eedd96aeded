/** Boxes of a job: an entry each, however it was written (in a list, as a row of a table). */
import { find } from '../contracts.js';
import type { Item } from '../model.js';
import { formatLength, MM_PER } from '../units/length.js';
import {
  type AskedBox,
  type AskedSize,
  type ItemPlaces,
  MEASURES,
  type PlacedDecoration,
  type PlacedItem,
} from './asked.js';
import { readAskedTreat } from './asked-treat.js';
import { buildBox } from './build-check.js';
import type { Context } from './context.js';
import type { Entry } from './document.js';
import type { Span } from './fault.js';
import { sizedByTreat } from './fit-treat.js';
import { insertItem } from './inserts.js';
import { faultOfName, fillTemplate, placeholders, titleFrom } from './names.js';
import { didYouMean } from './nearest.js';
import { countOf, lengthOf, sizeOf } from './quantities.js';
import { choiceOf, cut, type Fields, headOf, listed, oneOf, textOf, titleOf } from './reading.js';
import { readParams } from './values.js';

const STANDARD_NAME = '{style}-{length}x{width}x{height}';
/** More of one box is a print shop's work; a slip of the finger more likely. */
const COUNT = { least: 1, most: 10_000 };

/** How many: as said, or as the lists of names of its decorations have, which must agree. */
export function countIn(
  c: Context,
  entry: Entry | undefined,
  decorations: readonly PlacedDecoration[],
): number {
  const lists = decorations.flatMap(({ decoration: { each }, to, at }) =>
    each ? { names: each.length, at: to ?? at } : [],
  );
  const said = entry && countOf(c.r, entry, 'count', COUNT);
  const count = said ?? lists[0]?.names ?? 1;
  if (entry && said === undefined) return count;
  for (const { names, at } of lists) {
    if (names === count) continue;
    c.r.fault(at, `the list has ${names} names, and there are ${count} of this`, {
      hint: 'one piece is made for each name: change the list, or leave count out',
    });
  }
  return count;
}

/** What an entry says of its size: the size, or the treat that sizes it. */
export function sizingIn(c: Context, f: Fields, what: string): Pick<AskedBox, 'size' | 'treat'> {
  const treat = f.pair('treat');
  if (!treat) return { size: sizeIn(c, f, what) };
  const measure = MEASURES.find(m => f.pair(m));
  if (measure) {
    c.r.fault(f.pair(measure)!.keyAt, `treat and ${measure} are both given`, {
      allowed: `exactly one of ${listed([...MEASURES, 'treat'])}`,
    });
    return {};
  }
  const entry = f.get('treat');
  return { treat: entry && readAskedTreat(c.r, c.library, entry) };
}

/** The one size of an entry. */
function sizeIn(c: Context, f: Fields, what: string): AskedSize | undefined {
  const given = MEASURES.filter(m => f.pair(m));
  const [measure, second] = given;
  if (!measure) {
    return c.r.fault(
      headOf(c.r, f.at),
      `${what} needs a size: inside, outside or creases; or a treat`,
      {
        hint: 'for instance  inside: 6 x 2 x 1',
      },
    );
  }
  if (second) {
    return c.r.fault(f.pair(second)!.keyAt, `${given.join(' and ')} are both given`, {
      allowed: 'exactly one of inside, outside, creases',
    });
  }
  const entry = f.get(measure);
  const sides = entry && sizeOf(c.r, entry, measure);
  return sides && { measure, sides, at: entry.at };
}

/** Looks up every name of a box, builds its net once, and makes an item of it. */
export function makeBox(c: Context, asked: AskedBox): readonly PlacedItem[] | undefined {
  const { r, library, papers } = c;
  const before = r.faults.length;
  const ids = library.styles.map(s => s.id);
  const style =
    asked.style && oneOf(r, asked.style, 'box style', ids, id => find(library.styles, id));
  const count = countIn(c, asked.count, asked.decorations);
  const stock = asked.stock ? papers.use(asked.stock) : papers.standard;
  const params = style && readParams(r, asked.params, style);
  const split = asked.split && choiceOf(r, asked.split, 'split', ['no', 'auto']);
  const paper = stock === undefined ? undefined : papers.get(stock);
  const fitted = asked.treat && sizedByTreat(c, { asked, style, params, paper });
  const { size, words: more } = fitted ?? asked;
  const words = wordsOf(c, { ...asked, size, words: more }, style?.id);
  const named = words && nameIn(c, asked, words);
  const title = words && titleIn(c, asked, words);
  if (!style || !size || !params) return undefined;
  if (stock === undefined && !asked.stock)
    return r.fault(headOf(r, asked.at), 'the box needs a stock: the paper it is cut from');
  const round = asked.round && roundIn(c, asked.round);
  const built =
    paper && params.sound
      ? buildBox(c, {
          name: named?.name,
          asked,
          style,
          size,
          params,
          thickness: paper.caliper,
          decorations: asked.decorations,
          features: asked.features,
          round,
        })
      : undefined;
  if (!built || !named || stock === undefined || r.faults.length > before) return undefined;
  const item: Item = {
    name: named.name,
    title: title ?? titleFrom(named.name),
    count,
    box: {
      style: style.id,
      ...built,
      stock,
      ...(fitted && { arrangement: fitted.arrangement }),
      ...(asked.features.length > 0 && { features: asked.features.map(f => f.spec) }),
      ...(split === 'auto' && { split }),
    },
    decorations: asked.decorations.map(d => d.decoration),
  };
  const places: ItemPlaces = {
    at: named.at,
    size: size.at,
    stock: asked.stock?.at ?? named.at,
    decorations: new Map(asked.decorations.map(d => [d.decoration.name, d.at])),
    features: asked.features.map(f => f.at),
  };
  const placed = { item, places, nameAt: named.at };
  const insert = asked.treat?.insert;
  if (!insert || !fitted || !paper) return [placed];
  const inner = insertItem(c, insert, fitted.arrangement, item, paper.caliper);
  const innerPlaces = { ...places, decorations: new Map<string, Span>(), features: [] };
  return inner && [placed, { item: inner, places: innerPlaces, nameAt: named.at }];
}

/** Finer marks are on no ruler; coarser ones make no box. */
const ROUND_MM = { least: 0.5, most: 12.7 };

function roundIn(c: Context, entry: Entry): number | undefined {
  if (entry.kind === 'text' && entry.text.trim() === 'no') return undefined;
  return lengthOf(c.r, entry, 'round', ROUND_MM);
}

interface Words {
  readonly name: ReadonlyMap<string, string>;
  readonly title: ReadonlyMap<string, string>;
}

/** What a template may hold. In names lengths are decimals (2.5), in titles fractions (2 1/2). */
function wordsOf(c: Context, asked: AskedBox, style: string | undefined): Words | undefined {
  if (!asked.size || style === undefined) return undefined;
  const { unit } = c.r;
  const sides = ['length', 'width', 'height'].map((k, i) => [k, asked.size!.sides[i]!] as const);
  const common = [
    ['style', style],
    ['count', asked.count?.kind === 'text' ? asked.count.text.trim() : '1'],
    ...asked.words,
  ] as const;
  const decimal = (mm: number) => String(Number((mm / MM_PER[unit]).toFixed(3)));
  const fraction = (mm: number) => formatLength(mm, unit, 32).replace(/ (?:in|mm|cm)$/, '');
  return {
    name: new Map([...common, ...sides.map(([k, mm]) => [k, decimal(mm)] as const)]),
    title: new Map([...common, ...sides.map(([k, mm]) => [k, fraction(mm)] as const)]),
  };
}

function nameIn(c: Context, asked: AskedBox, words: Words): { name: string; at: Span } | undefined {
  const entry = asked.name;
  const at = entry?.at ?? headOf(c.r, asked.at);
  const template = entry ? textOf(c.r, entry, 'name') : STANDARD_NAME;
  if (template === undefined || !knownWords(c, at, 'name', template, words.name)) return undefined;
  const name = fillTemplate(template, words.name);
  const fault = faultOfName(name);
  return fault ? c.r.fault(at, fault.message, fault) : { name, at };
}

function titleIn(c: Context, asked: AskedBox, words: Words): string | undefined {
  const template = asked.title && titleOf(c.r, asked.title, 'title');
  if (template === undefined) return undefined;
  return knownWords(c, asked.title!.at, 'title', template, words.title)
    ? fillTemplate(template, words.title)
    : undefined;
}

function knownWords(
  c: Context,
  at: Span,
  what: string,
  template: string,
  words: ReadonlyMap<string, string>,
): boolean {
  const known = [...words.keys()];
  const wrong = placeholders(template).find(word => !words.has(word));
  if (wrong === undefined) return true;
  const hint = didYouMean(wrong, known);
  c.r.fault(at, `the ${what} has {${cut(wrong)}}, which stands for nothing`, {
    allowed: listed(known.map(k => `{${k}}`)),
    ...(hint ? { hint } : {}),
  });
  return false;
}
