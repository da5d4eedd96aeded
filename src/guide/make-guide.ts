/** The facts of a guide, from what the other rooms know of an item. */
import type { Triple } from '../model.js';
import type { GuideAsk } from './ask.js';
import { decoratingOf } from './decorating.js';
import { CAUTIONS, type Caution, type CutRow, type Guide, type Materials } from './facts.js';
import { cutRows, materialsOf } from './materials.js';
import { patternsOf } from './pattern.js';
import { stepsOf, viewOf } from './steps.js';

/** What is smaller goes whole into the cylinder by which small parts are told: 31.7 mm across (16 CFR
 *  1501.4, EN 71-1, from memory). */
const SMALL_PART_MM = 31.7;

export function makeGuide(ask: GuideAsk): Guide {
  const { item, design } = ask;
  const stock = item.box && design.stocks[item.box.stock]!;
  const cuts = cutRows(ask);
  const materials = materialsOf(ask);
  const { length, width, height } = item.box?.spec.inside ?? { length: 0, width: 0, height: 0 };
  const inside: Triple = [length, width, height];
  const seatsOf = (net: string) => ask.seats.filter(s => s.net === net).map(s => s.area);
  return {
    item: item.name,
    title: item.title,
    job: design.title,
    unit: design.unit,
    count: item.count,
    ...(item.box && { inside }),
    round: ask.round,
    ...(ask.outside && { outside: ask.outside }),
    ...(ask.closed && { closed: viewOf(ask, ask.closed, { decals: ask.decals }) }),
    patterns: stock ? patternsOf(ask.cut, stock.colour, seatsOf) : [],
    cuts,
    materials,
    steps: stepsOf(ask),
    decorating: decoratingOf(ask),
    cautions: CAUTIONS.filter(c => applies(c, cuts, materials, item.box !== undefined)),
  };
}

function applies(caution: Caution, cuts: readonly CutRow[], m: Materials, box: boolean): boolean {
  if (caution === 'magnets') return m.closures.some(c => c.means === 'magnet');
  if (caution === 'food') return box;
  if (caution !== 'small-parts') return true;
  const small = cuts.some(c => Math.max(...c.size) < SMALL_PART_MM);
  return small || m.closures.length > 0 || m.foam.length > 0;
}
