import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  circle,
  cubic,
  openPath,
  type Path,
  type Point,
  pathLength,
  polygon,
  polyline,
  rectangle,
  reverse,
  startingAt,
} from '../../src/geom/index.js';
import { cleanOutlines, cleanPaths } from '../../src/tool/clean.js';

const total = (paths: readonly Path[]) => paths.reduce((sum, p) => sum + pathLength(p), 0);

describe('each line once', () => {
  it('drops a contour that lies on another, whatever its start and direction', () => {
    const square = rectangle(0, 0, 30, 20);
    const { paths, report } = cleanPaths([square, reverse(startingAt(square, 2)), square]);
    expect(paths).toEqual([square]);
    expect(report.duplicates).toBe(2);
    expect(report.sharedLength).toBeCloseTo(200, 9);
  });

  it('cuts the edge between two neighbours once and remembers the second contour', () => {
    const left = rectangle(0, 0, 30, 20);
    const right = rectangle(30, -5, 40, 40);
    const { paths, contours, report } = cleanPaths([left, right]);
    expect(report.sharedLength).toBeCloseTo(20, 9);
    expect(total(paths)).toBeCloseTo(pathLength(left) + pathLength(right) - 20, 9);
    expect(paths).toHaveLength(2);
    expect(paths[1]!.closed).toBe(false);
    expect(contours).toEqual([undefined, right]);
  });

  it('finds arcs on one circle and the same cubics', () => {
    const disc = circle([5, 5], 10);
    const quarter = openPath([15, 5], [arcTo([5, 15], Math.PI / 2)]);
    const wave = openPath([40, 0], [cubic([50, 10], [60, -10], [70, 0])]);
    const { paths, report } = cleanPaths([disc, quarter, wave, reverse(wave)]);
    expect(paths).toEqual([disc, wave]);
    expect(report.duplicates).toBe(2);
  });

  it('keeps lines that only cross or touch, or run near each other', () => {
    const lines = [
      polyline([
        [0, 0],
        [10, 0],
      ]),
      polyline([
        [5, -5],
        [5, 5],
      ]),
      polyline([
        [10, 0],
        [10, 10],
      ]),
      polyline([
        [0, 0.01],
        [10, 0.01],
      ]),
    ];
    expect(cleanPaths(lines).report.sharedLength).toBe(0);
  });

  it('a line drawn out and back is cut once', () => {
    const spur = polyline([
      [0, 0],
      [10, 0],
      [0, 0],
    ]);
    const { paths } = cleanPaths([spur]);
    expect(total(paths)).toBeCloseTo(10, 9);
  });

  it('never loses a place: the cleaned lines cover all that was drawn', () => {
    const cell = fc.nat({ max: 4 });
    const box = fc
      .tuple(cell, cell, cell, cell)
      .map(([x, y, w, h]) => rectangle(10 * x, 10 * y, 10 * (w + 1), 10 * (h + 1)));
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 8 }), boxes => {
        const { paths } = cleanPaths(boxes);
        // Unit edges of the 10 mm grid that are drawn, against those that are left.
        const edges = (list: readonly Path[]) => {
          const seen: string[] = [];
          for (const path of list) {
            let from = path.start;
            for (const { to } of path.segments) {
              const n = Math.round(Math.hypot(to[0] - from[0], to[1] - from[1]) / 10);
              for (let i = 0; i < n; i++) {
                const mid = (k: 0 | 1) => from[k] + ((to[k] - from[k]) * (i + 0.5)) / n;
                seen.push(`${Math.round(mid(0))},${Math.round(mid(1))}`);
              }
              from = to;
            }
          }
          return seen.sort();
        };
        expect(edges(paths)).toEqual([...new Set(edges(boxes))].sort());
      }),
      { seed: 11, numRuns: 100 },
    );
  });
});

describe('runs and gaps', () => {
  it('lines that run straight on become one, also across the start of a contour', () => {
    const square = polygon([
      [5, 0],
      [10, 0],
      [10, 10],
      [5, 10],
      [0, 10],
      [0, 0],
    ]);
    const { paths, report } = cleanPaths([square]);
    expect(paths[0]!.segments).toHaveLength(4);
    expect(paths[0]!.closed).toBe(true);
    expect(report.joined).toBe(2);
    expect(pathLength(paths[0]!)).toBeCloseTo(40, 9);
  });

  it('arcs of one circle become one, but no more than half a turn', () => {
    const quarters = [0, 1, 2, 3].map(i => {
      const a = (i * Math.PI) / 2;
      return { from: [Math.cos(a), Math.sin(a)] as Point };
    });
    const segments = [1, 2, 3, 4].map(i => arcTo(quarters[i % 4]!.from, Math.PI / 2));
    const { paths } = cleanPaths([{ start: quarters[0]!.from, segments, closed: true }]);
    expect(paths[0]!.segments.map(s => s.kind)).toEqual(['arc', 'arc']);
    expect(pathLength(paths[0]!)).toBeCloseTo(2 * Math.PI, 9);
  });

  it('a bend of a hundredth of a millimetre is not straightened', () => {
    const bent = polyline([
      [0, 0],
      [5, 0.01],
      [10, 0],
    ]);
    expect(cleanPaths([bent]).paths).toEqual([bent]);
  });

  it('four loose sides become a contour; the gaps are closed and told', () => {
    const sides = [
      polyline([
        [0, 0],
        [10, 0],
      ]),
      polyline([
        [10, 10],
        [10, 0.008],
      ]),
      polyline([
        [10, 10],
        [0, 10],
      ]),
      polyline([
        [0, 0],
        [0, 10],
      ]),
    ];
    const { paths, report } = cleanPaths(sides);
    expect(paths).toHaveLength(1);
    expect(paths[0]!.closed).toBe(true);
    expect(report.gapsClosed).toBe(1);
    expect(report.widestGap).toBeCloseTo(0.008, 9);
  });

  it('a gap too wide to be a slip stays open', () => {
    const c = polyline([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
      [0, 0.1],
    ]);
    const { paths, report } = cleanPaths([c]);
    expect(paths).toEqual([c]);
    expect(report.gapsClosed).toBe(0);
  });

  it('where three ends meet nothing is joined', () => {
    const star = [0, 1, 2].map(i =>
      polyline([
        [0, 0],
        [Math.cos(2 * i), Math.sin(2 * i)],
      ]),
    );
    expect(cleanPaths(star).paths).toEqual(star);
  });

  it('paths without length go; a number that is none throws', () => {
    const { paths, report } = cleanPaths([openPath([1, 1], []), rectangle(0, 0, 5, 5)]);
    expect(paths).toHaveLength(1);
    expect(report.empty).toBe(1);
    const bad = polyline([
      [0, 0],
      [Number.NaN, 1],
    ]);
    expect(() => cleanPaths([bad])).toThrow(RangeError);
  });
});

describe("the lines of a person's drawing", () => {
  const slit = polyline([
    [5, 5],
    [15, 5],
  ]);
  const bent = openPath([40, 0], [cubic([50, 10], [60, -10], [70, 0])]);
  it.each([
    ['a line', slit],
    ['a curve', bent],
    [
      'a line of three',
      polyline([
        [0, 0],
        [0, 10],
        [10, 10],
        [10, 0],
      ]),
    ],
  ])('%s drawn twice is no outline, but a line drawn once', (_, path) => {
    for (const again of [path, reverse(path)]) {
      const { paths, mended } = cleanOutlines([path, again], 0.1);
      expect(paths).toHaveLength(1);
      expect(paths[0]!.closed).toBe(false);
      expect(total(paths)).toBeCloseTo(pathLength(path), 6);
      expect(mended).toEqual(['1 doubled line dropped']);
    }
  });

  it('says what was mended, and nothing of outlines that share an edge', () => {
    const near = [rectangle(0, 0, 30, 20), rectangle(30, -5, 40, 40)];
    expect(cleanOutlines(near, 0.1)).toEqual({ paths: near, mended: [] });
    const open = polyline([
      [0, 0.05],
      [0, 20],
      [30, 20],
      [30, 0],
      [0, 0],
    ]);
    const { paths, mended } = cleanOutlines([open, slit, slit, rectangle(5, 8, 9, 9)], 0.1);
    expect(paths.map(p => p.closed)).toEqual([true, false, true]);
    expect(mended).toEqual(['1 gap of up to 0.050 mm closed', '1 doubled line dropped']);
    const on = polyline([
      [10, 5],
      [20, 5],
    ]);
    expect(cleanOutlines([slit, on], 0.1).mended).toEqual([
      '1 line cut short where it lay on another',
    ]);
  });
});
