/** Drawings for the tests of the writers: one of each segment, a small box, and random ones. */
import fc from 'fast-check';
import {
  circle,
  closedPath,
  cubic,
  line,
  openPath,
  rectangle,
  roundedPolygon,
} from '../../src/geom/index.js';
import type { Convention, Drawing, Operation, Path, Point, Segment } from '../../src/model.js';
import { OPERATIONS } from '../../src/model.js';

/** The stroke convention of design.md section 5 (Okabe–Ito colours). */
export const CONVENTION: Convention = {
  id: 'test',
  summary: 'for the tests',
  operations: {
    draw: { colour: '#0072b2', aci: 5, dash: [] },
    score: { colour: '#d55e00', aci: 1, dash: [4, 1.5] },
    perforate: { colour: '#cc79a7', aci: 6, dash: [0.5, 1.5] },
    cut: { colour: '#000000', aci: 7, dash: [] },
    register: { colour: '#009e73', aci: 3, dash: [] },
  },
};

export const drawing = (
  layers: Partial<Record<Operation, readonly Path[]>>,
  width = 210,
  height = 297,
): Drawing => ({
  name: 'test',
  width,
  height,
  layers: OPERATIONS.filter(o => layers[o]).map(operation => ({
    operation,
    paths: layers[operation]!,
  })),
});

/** A sheet with every operation, lines, arcs both ways, cubics, open and closed. */
export const SPECIMEN: Drawing = drawing({
  draw: [
    openPath(
      [30, 200],
      [
        cubic([40, 215], [55, 215], [60, 200]),
        line([70, 200]),
        { kind: 'arc', to: [90, 200], bulge: -0.5 },
      ],
    ),
  ],
  score: [openPath([20, 40], [line([120, 40])]), openPath([20, 90], [line([120, 90])])],
  perforate: [openPath([50, 60], [{ kind: 'arc', to: [80, 60], bulge: 0.414213562373095 }])],
  cut: [
    circle([60, 65], 12.5),
    roundedPolygon(
      [
        [20, 20],
        [120, 20],
        [120, 120],
        [20, 120],
      ],
      [5, 0, 8, 3.2],
    ),
    closedPath([140, 40], [cubic([180, 20], [180, 100], [140, 80]), line([140, 40])]),
  ],
  register: [
    circle([10, 10], 3),
    openPath([5, 10], [line([15, 10])]),
    openPath([10, 5], [line([10, 15])]),
  ],
});

/** A box-like net of about 200 segments: walls, tabs with mitred ends, score lines, slots. */
export function boxDrawing(): Drawing {
  const cut: Path[] = [];
  const score: Path[] = [];
  for (let k = 0; k < 10; k++) {
    const y = 12 + k * 27;
    cut.push(
      roundedPolygon(
        [
          [20, y],
          [150, y],
          [156, y + 5],
          [156, y + 17],
          [150, y + 22],
          [20, y + 22],
        ],
        [2, 0, 1, 1, 0, 2],
      ),
    );
    cut.push(rectangle(60.123, y + 6.0417, 18.3333, 1.25));
    for (let i = 1; i < 7; i++)
      score.push(openPath([20 + i * 18.52, y], [line([20 + i * 18.52, y + 22])]));
  }
  return drawing({ score, cut });
}

// ---- Random drawings ---------------------------------------------------------------------------

const coordinate = fc.double({ min: 0, max: 200, noNaN: true });
const point: fc.Arbitrary<Point> = fc.tuple(coordinate, coordinate);
const bulge = fc.double({ min: 0.05, max: 2.4, noNaN: true }).chain(b => fc.constantFrom(b, -b));
const segment: fc.Arbitrary<Segment> = fc.oneof(
  point.map((to): Segment => ({ kind: 'line', to })),
  fc.tuple(point, bulge).map(([to, b]): Segment => ({ kind: 'arc', to, bulge: b })),
  fc.tuple(point, point, point).map(([c1, c2, to]): Segment => ({ kind: 'cubic', c1, c2, to })),
);

const far = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]) > 0.5;

/** A path whose neighbouring corners are at least half a millimetre apart. */
export const anyPath = (kinds: fc.Arbitrary<Segment> = segment): fc.Arbitrary<Path> =>
  fc
    .tuple(point, fc.array(kinds, { minLength: 1, maxLength: 6 }), fc.boolean())
    .map(([start, some, closed]): Path => {
      const segments: Segment[] = [];
      let at = start;
      for (const s of some) {
        if (!far(at, s.to)) continue;
        segments.push(s);
        at = s.to;
      }
      if (segments.length === 0) segments.push({ kind: 'line', to: [start[0] + 1, start[1]] });
      return closed && far(at, start) ? closedPath(start, segments) : openPath(start, segments);
    });
export const straightOrArc: fc.Arbitrary<Segment> = segment.filter(s => s.kind !== 'cubic');
export const straightOrCubic: fc.Arbitrary<Segment> = segment.filter(s => s.kind !== 'arc');

export const anyDrawing = (kinds?: fc.Arbitrary<Segment>): fc.Arbitrary<Drawing> =>
  fc
    .record(
      Object.fromEntries(
        OPERATIONS.map(o => [o, fc.array(anyPath(kinds), { minLength: 1, maxLength: 3 })]),
      ) as Record<Operation, fc.Arbitrary<Path[]>>,
      { requiredKeys: [] },
    )
    .map(layers => drawing(layers as Partial<Record<Operation, Path[]>>));
