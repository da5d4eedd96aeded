/** What the face of a guide cannot spell: pictures (emoji) are left out, and of a title in another script
 *  the item's own name takes the place. */
import type { GuidePage, StepsWords } from '../guide-model.js';
import type { TextMetrics } from './text-metrics.js';

/** Signs that are no letters, and what only joins or colours them. */
const PICTURE = /\p{So}|\p{Sk}|\p{Cf}|\p{Variation_Selector}/u;
const UNSEEN = /\p{Cf}|\p{Variation_Selector}/u;
const LOST = '\0';
const MOST_TOLD = 12;

/** A title as a face can set it: without emoji, or the thing's own name where letters are missing. */
export function titleFor(title: string, name: string, has: (char: string) => boolean): string {
  const given = [...title.normalize('NFC')];
  const lacks = (char: string) => !/\s/u.test(char) && !has(char);
  const strange = given.some(c => lacks(c) && !PICTURE.test(c));
  const words = given.filter(c => !lacks(c)).join('');
  const said = words.replace(/\s+/g, ' ').trim();
  if (said !== '' && !strange) return said;
  const own = name.replaceAll('-', ' ');
  return own.charAt(0).toUpperCase() + own.slice(1);
}

export interface Spelled {
  readonly page: GuidePage;
  /** Characters that were left out or replaced, each once. */
  readonly missing: readonly string[];
}

export function spelled(page: GuidePage, metrics: TextMetrics): Spelled {
  const missing = new Set<string>();
  const lacks = (char: string) => !/\s/u.test(char) && !metrics.has(char);
  const spell = (given: string): string => {
    const text = given.normalize('NFC');
    const lost = [...text].filter(lacks);
    if (lost.length === 0) return text;
    for (const char of lost) missing.add(char);
    const bare = [...text].filter(c => !(lacks(c) && PICTURE.test(c)));
    // One for a word: a row of them tells no more.
    const said = bare
      .map(c => (lacks(c) ? LOST : c))
      .join('')
      .replace(/\0+/g, '?');
    return said.replace(/\s+/g, ' ').trim();
  };
  // What it lacks is told too.
  spell(page.title);
  const title = titleFor(page.title, page.name, metrics.has);
  const whole = mapTexts(page, spell);
  const told = [...missing].filter(c => !UNSEEN.test(c));
  const most = told.length > MOST_TOLD ? [...told.slice(0, MOST_TOLD), '…'] : told;
  // A job without a name that can be set is not named.
  const job = titleFor(page.job, '', metrics.has);
  return { page: { ...whole, title, job }, missing: most };
}

/** The same page with its texts changed; pictures are left as they are. */
function mapTexts(page: GuidePage, change: (text: string) => string): GuidePage {
  const stepsOf = (s: StepsWords): StepsWords => ({
    ...s,
    steps: s.steps.map(step => ({
      ...step,
      text: change(step.text),
      layers: step.layers.map(change),
    })),
  });
  const { pieces, needs, patterns, byHand, steps, decorating } = page;
  return {
    ...page,
    job: change(page.job),
    needs: {
      ...needs,
      groups: needs.groups.map(g => ({ ...g, items: g.items.map(change) })),
    },
    pieces: { ...pieces, rows: pieces.rows.map(r => ({ ...r, cells: r.cells.map(change) })) },
    ...(patterns && {
      patterns: {
        ...patterns,
        nets: patterns.nets.map(n => ({
          ...n,
          title: change(n.title),
          names: n.names.map(change),
        })),
      },
    }),
    ...(byHand && {
      byHand: {
        ...byHand,
        nets: byHand.nets.map(n => ({ title: change(n.title), lines: n.lines.map(change) })),
      },
    }),
    ...(steps && { steps: stepsOf(steps) }),
    ...(decorating && { decorating: stepsOf(decorating) }),
  };
}
