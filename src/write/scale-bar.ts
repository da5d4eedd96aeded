/** The scale bar of a printed sheet: 100 mm over 4 in (or half of each), in blocks of black and white
 *  as on a map, so that a ruler laid on it shows what the printer did to the size. */
import { rectangle } from '../geom/index.js';
import type { Figure, Mark } from './figure.js';

/** x, y of the lower left corner, width, height; mm. */
export type Box = readonly [x: number, y: number, width: number, height: number];

export interface ScaleBar {
  readonly mm: number;
  readonly inches: number;
}
export const SCALE_BARS: readonly ScaleBar[] = [
  { mm: 100, inches: 4 },
  { mm: 50, inches: 2 },
];

const INCH_MM = 25.4;
export const ROW_MM = 1.2;
/** Height of both rows with the white between them. */
export const BAR_HEIGHT_MM = 2.8;
const FRAME_MM = 0.15;
/** Of the bar in a guide: as high as its labels. */
const FIGURE_ROW_MM = 3.2;

export const barLength = ({ mm, inches }: ScaleBar): number => Math.max(mm, inches * INCH_MM);

/** The words beside the bar. */
export const barWords = ({ mm, inches }: ScaleBar): string =>
  `Lay a ruler on the bar: ${mm} mm above, ${inches} in below. If it differs, print again at 100 %.`;

/** Filled boxes from (x, y), the lower left corner: every second block full, the others as a frame. */
export function barBoxes(bar: ScaleBar, x: number, y: number): Box[] {
  const row = (length: number, block: number, low: number): Box[] => {
    const count = Math.round(length / block);
    const full = Array.from({ length: count }, (_, i) => i).filter(i => i % 2 === 0);
    return [
      ...full.map((i): Box => [x + i * block, low, block, ROW_MM]),
      [x, low, length, FRAME_MM],
      [x, low + ROW_MM - FRAME_MM, length, FRAME_MM],
      [x + length - FRAME_MM, low, FRAME_MM, ROW_MM],
    ];
  };
  return [
    ...row(bar.mm, 10, y + BAR_HEIGHT_MM - ROW_MM),
    ...row(bar.inches * INCH_MM, INCH_MM / 2, y),
  ];
}

/** The longest bar as a figure, its rows parted by a line's width. */
export function barFigure(): Figure {
  const bar = SCALE_BARS[0]!;
  const high = FIGURE_ROW_MM;
  const marks = [
    { length: bar.mm, block: 10, low: high },
    { length: bar.inches * INCH_MM, block: INCH_MM / 2, low: 0 },
  ].flatMap(({ length, block, low }): Mark[] => {
    const count = Math.round(length / block);
    const full = Array.from({ length: count }, (_, i) => i).filter(i => i % 2 === 0);
    const blocks = full.map(i => rectangle(i * block, low, block, high));
    const rim = { colour: 'ink', width: FRAME_MM } as const;
    return [
      { kind: 'shape', paths: blocks, fill: 'ink' },
      { kind: 'shape', paths: [rectangle(0, low, length, high)], line: rim },
    ];
  });
  return { width: barLength(bar), height: 2 * high, marks };
}
