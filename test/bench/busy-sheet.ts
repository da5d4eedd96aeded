/**
 * A full sheet for the figures of cutting: 200 blossoms on 12 × 12 in, each an outline with a window in it:
 * 400 contours of 20,000 segments. Invented, but of what hobby cutting is made of: outlines traced as short
 * lines, scallops of arcs, petals of cubics. One seed, one sheet.
 */
import { arcTo, cubic, line, polar } from '../../src/geom/index.js';
import type { Path, Point, Segment, Stroke } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';

export const BUSY_SHEET_MM = 304.8;
/** The least travel of the lifted tool through the sheet of seed 1 that is known, mm:
 *  `npx tsx test/bench/best-order.ts 4 1` (400,000 kicks, every corner a beginning). The other seeds from
 *  1 to 8 gave 3565.6 to 3602.3. */
export const BUSY_BEST_KNOWN_MM = 3562.5;
/** Rows and columns; of the 210 places the last ten stay empty. */
const [COLUMNS, ROWS] = [15, 14];
const BLOSSOMS = 200;
/** Segments of an outline and of its window: 100 a blossom. */
const OUTLINE = 60;
const WINDOW = 40;
/** The sheet's border, mm, that a cutter cannot reach. */
const MARGIN_MM = 8;

type Edge = (from: Point, to: Point, middle: Point) => Segment;

/** The three ways that a contour is drawn: between two of its points, past a middle that lies outside. */
const EDGES: readonly Edge[] = [
  (_, to) => line(to),
  (_, to) => arcTo(to, 1.2),
  (from, to, middle) => {
    const toward = (p: Point): Point => [
      p[0] + (2 / 3) * (middle[0] - p[0]),
      p[1] + (2 / 3) * (middle[1] - p[1]),
    ];
    return cubic(toward(from), toward(to), to);
  },
];

/** A waved ring of `n` segments about a point. */
function ring(centre: Point, radius: number, n: number, edge: Edge, random: () => number): Path {
  const lobes = 3 + Math.floor(5 * random());
  const depth = 0.05 + 0.15 * random();
  const begin = 2 * Math.PI * random();
  const wave = (angle: number, more: number) =>
    polar(radius * (1 - depth * (1 - Math.cos(lobes * angle)) + more), begin + angle, centre);
  const step = (2 * Math.PI) / n;
  const points = Array.from({ length: n }, (_, i) => wave(i * step, 0));
  const segments = points.map((from, i) => {
    const to = points[(i + 1) % n]!;
    return edge(from, to, wave((i + 0.5) * step, 0.03));
  });
  return { start: points[0]!, segments, closed: true };
}

/** The sheet's cuts, in the order in which they were drawn: row by row, the window before its outline or
 *  after it as it comes. */
export function busySheet(seed = 1): Stroke[] {
  const random = seeded(seed);
  const [dx, dy] = [
    (BUSY_SHEET_MM - 2 * MARGIN_MM) / COLUMNS,
    (BUSY_SHEET_MM - 2 * MARGIN_MM) / ROWS,
  ];
  const edge = () => EDGES[Math.floor(3 * random())]!;
  return Array.from({ length: BLOSSOMS }, (_, i) => {
    const [column, row] = [i % COLUMNS, Math.floor(i / COLUMNS)];
    const centre: Point = [
      MARGIN_MM + (column + 0.5) * dx + 1.2 * (random() - 0.5),
      MARGIN_MM + (row + 0.5) * dy + 1.2 * (random() - 0.5),
    ];
    const radius = 6 + 2 * random();
    const both = [
      ring(centre, radius, OUTLINE, edge(), random),
      ring(centre, (0.25 + 0.25 * random()) * radius, WINDOW, edge(), random),
    ];
    return random() < 0.5 ? both : both.reverse();
  })
    .flat()
    .map(path => ({ operation: 'cut', path }));
}
