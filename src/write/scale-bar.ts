/** The scale bar of a printed sheet: 100 mm over 4 in (or half of each), in blocks of black and white
 *  as on a map, so that a ruler laid on it shows what the printer did to the size. */

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
