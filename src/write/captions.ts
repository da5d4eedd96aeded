/** The words of a printed sheet and the scale bar that proves its size, laid out in white paper. */
import type { Affine, PrintPage } from '../model.js';
import { type Block, type Place, placeCaptions } from './caption-place.js';
import {
  BAR_HEIGHT_MM,
  type Box,
  barBoxes,
  barLength,
  barWords,
  ROW_MM,
  SCALE_BARS,
  type ScaleBar,
} from './scale-bar.js';

/** What is set, in a frame of mm with y up; `at` takes it to the sheet's, perhaps by a quarter turn. */
export interface Captions {
  readonly at: Affine;
  /** Each from (x, y), its baseline; `size` is the em, mm. */
  readonly lines: readonly {
    readonly text: string;
    readonly x: number;
    readonly y: number;
    readonly size: number;
  }[];
  /** Filled black. */
  readonly boxes: readonly Box[];
}

/** Width of a line of text, mm; `size` is the em, mm. */
type WidthOf = (text: string, size: number) => number;

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
function layouts(bar: ScaleBar, captions: readonly string[], widthOf: WidthOf): Block<Layout>[] {
  const width = (...texts: string[]) => Math.max(...texts.map(t => widthOf(t, TEXT_MM)));
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

function placed({ x, y, turned, block: { what, height } }: Place<Layout>): Captions {
  const { bar, lines, barX } = what;
  const line = (text: string, lineX: number, lineY: number) => ({
    text,
    x: lineX,
    y: lineY,
    size: TEXT_MM,
  });
  const label = barX + barLength(bar) + LABEL_GAP_MM;
  return {
    at: turned ? [0, 1, -1, 0, x, y] : [1, 0, 0, 1, x, y],
    lines: [
      ...lines.map((text, i) => line(text, 0, height - (i + 1) * LEADING_MM + DESCENT_MM)),
      line(barWords(bar), barX, BAR_HEIGHT_MM + BAR_WORDS_MM),
      line(`${bar.mm} mm`, label, BAR_HEIGHT_MM - ROW_MM),
      line(`${bar.inches} in`, label, -DESCENT_MM),
    ],
    boxes: barBoxes(bar, barX, 0),
  };
}

/** The captions, how to print, and the longest scale bar that the sheet has room for: upright, else along
 *  a side. Nothing for a sheet without any white paper left. */
export function captionsOf(page: PrintPage, width: WidthOf): Captions | undefined {
  for (const bar of SCALE_BARS) {
    const place = placeCaptions(page, layouts(bar, page.captions, width));
    if (place) return placed(place);
  }
  return undefined;
}
