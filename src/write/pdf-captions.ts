/** The words of a printed sheet and the scale bar that proves its size, laid out in white paper. */
import type { PrintPage } from '../model.js';
import { type Block, type Place, placeCaptions } from './caption-place.js';
import { num } from './number.js';
import type { Lettering } from './pdf-lettering.js';
import {
  BAR_HEIGHT_MM,
  barLength,
  barOperators,
  barWords,
  ROW_MM,
  SCALE_BARS,
  type ScaleBar,
} from './scale-bar.js';

/** Text size and distance between lines, mm: three lines go beside the bar in a strip of 8 mm. */
const TEXT_MM = 2.1;
const LEADING_MM = 2.5;
/** From a line's lower edge to its baseline. */
const DESCENT_MM = 0.5;
/** From the bar to the baseline of its words: clear of the labels beside it. */
const BAR_WORDS_MM = 0.8;
const GAP_MM = 6;
const LABEL_GAP_MM = 1;
const MOST_LINES = 3;

const ACTUAL_SIZE = 'Actual size: print at 100 %, no scaling.';

interface Layout {
  readonly bar: ScaleBar;
  /** Top line first. */
  readonly lines: readonly string[];
  /** From the block's left to the bar; 0 when the lines stand above it. */
  readonly barX: number;
}

/** The layouts of one bar to try, from the best: the words beside it, above it in one line, above it
 *  in several. */
function layouts(
  bar: ScaleBar,
  captions: readonly string[],
  lettering: Lettering,
): Block<Layout>[] {
  const width = (...texts: string[]) => Math.max(...texts.map(t => lettering.width(t, TEXT_MM)));
  const all = [...captions, ACTUAL_SIZE];
  const few = [...all.slice(0, MOST_LINES - 1), all.slice(MOST_LINES - 1).join(' · ')].filter(
    Boolean,
  );
  const one = [all.join(' · ')];
  const labels = LABEL_GAP_MM + width(`${bar.mm} mm`, `${bar.inches} in`);
  const barWidth = Math.max(barLength(bar) + labels, width(barWords(bar)));
  const barHeight = BAR_HEIGHT_MM + LEADING_MM;
  const beside = width(...few) + GAP_MM;
  const above = (lines: readonly string[]): Block<Layout> => ({
    width: Math.max(barWidth, width(...lines)),
    height: barHeight + lines.length * LEADING_MM,
    what: { bar, lines, barX: 0 },
  });
  return [
    {
      width: beside + barWidth,
      height: Math.max(barHeight, few.length * LEADING_MM),
      what: { bar, lines: few, barX: beside },
    },
    above(one),
    above(all),
  ];
}

function writePlaced(
  place: Place<Layout>,
  lettering: Lettering,
  add: (operators: string) => void,
): void {
  const {
    what: { bar, lines, barX },
    height,
  } = place.block;
  const turn = place.turned ? '0 1 -1 0' : '1 0 0 1';
  add(`q ${turn} ${num(place.x)} ${num(place.y)} cm`);
  for (const [i, text] of lines.entries()) {
    lettering.write(text, 0, height - (i + 1) * LEADING_MM + DESCENT_MM, TEXT_MM);
  }
  add(barOperators(bar, barX, 0));
  lettering.write(barWords(bar), barX, BAR_HEIGHT_MM + BAR_WORDS_MM, TEXT_MM);
  const label = barX + barLength(bar) + LABEL_GAP_MM;
  lettering.write(`${bar.mm} mm`, label, BAR_HEIGHT_MM - ROW_MM, TEXT_MM);
  lettering.write(`${bar.inches} in`, label, -DESCENT_MM, TEXT_MM);
  add('Q');
}

/** Writes the captions, how to print, and the longest scale bar that the sheet has room for: upright, else
 *  along a side. On a sheet without any white paper left it writes nothing. */
export function writeCaptions(
  page: PrintPage,
  lettering: Lettering,
  add: (operators: string) => void,
): void {
  for (const bar of SCALE_BARS) {
    const place = placeCaptions(page, layouts(bar, page.captions, lettering));
    if (place) {
      writePlaced(place, lettering, add);
      return;
    }
  }
}
