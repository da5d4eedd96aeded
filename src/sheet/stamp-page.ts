/** A page to stamp on: register marks, and a light grid to keep the images apart by. */
import { bounds, rectangle } from '../geom/index.js';
import type { Art, Bounds, Cutter, MarkStyle, RegisterMark, Sheet, Stock } from '../model.js';
import { markInk, markPaths, printLayout } from './marks.js';

/** From marks and captions to where images may be stamped, mm. */
const CLEAR_MM = 1.5;
/** Height of the strip for captions at the upper edge. */
const CAPTIONS_MM = 8;
/** Pale blue: a person sees it, and it is taken out of scans again. */
const GRID_COLOUR = '#dde9f2';
const GRID_LINE_MM = 0.2;

/** Where images are stamped: inside all marks, so that none is taken for an image. */
export function stampArea(marks: readonly RegisterMark[]): Bounds {
  const boxes = new Map(
    marks.map(m => [m.name, bounds(...markInk(m).lines, ...markInk(m).solids, ...markPaths(m))]),
  );
  const of = (name: string) => {
    const box = boxes.get(name);
    if (!box) throw new Error(`a page without the mark ${name}`);
    return box;
  };
  const [ll, lr, ur, ul] = [
    of('lower-left'),
    of('lower-right'),
    of('upper-right'),
    of('upper-left'),
  ];
  return {
    minX: Math.max(ll.maxX, ul.maxX) + CLEAR_MM,
    minY: Math.max(ll.maxY, lr.maxY) + CLEAR_MM,
    maxX: Math.min(lr.minX, ur.minX) - CLEAR_MM,
    maxY: Math.min(ul.minY, ur.minY, ul.maxY - CAPTIONS_MM) - CLEAR_MM,
  };
}

/** Lines at every `pitch` mm from the sheet's lower left corner; `pitch` 0 is none. `undefined` where the
 *  sheet is too small for its marks. */
export function stampSheet(
  stock: Stock,
  cutter: Cutter,
  printMargin: number,
  style: MarkStyle,
  pitch: number,
): Sheet | undefined {
  const layout = printLayout(stock, cutter, printMargin, style);
  if (!layout) return undefined;
  const { marks, wedge } = layout;
  const area = stampArea(marks);
  if (!(area.maxX - area.minX > 20 && area.maxY - area.minY > 20)) return undefined;
  const ground = pitch > 0 ? grid(area, pitch) : undefined;
  return {
    id: `${stock.id}-1`,
    stock,
    placements: [],
    marks,
    wedge,
    copies: 1,
    ...(ground && { ground }),
  };
}

function grid({ minX, minY, maxX, maxY }: Bounds, pitch: number): Art {
  const at = (from: number, to: number) => {
    const first = Math.ceil(from / pitch);
    const n = Math.floor(to / pitch) - first + 1;
    return Array.from({ length: Math.max(0, n) }, (_, i) => (first + i) * pitch);
  };
  const half = GRID_LINE_MM / 2;
  const lines = [
    ...at(minX, maxX).map(x => rectangle(x - half, minY, GRID_LINE_MM, maxY - minY)),
    ...at(minY, maxY).map(y => rectangle(minX, y - half, maxX - minX, GRID_LINE_MM)),
  ];
  return {
    ground: '#ffffff',
    fills: [{ colour: GRID_COLOUR, regions: lines.map(outer => ({ outer, holes: [] })) }],
    bleed: rectangle(minX, minY, maxX - minX, maxY - minY),
  };
}
