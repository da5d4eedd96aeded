import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  fitArcs,
  line,
  openPath,
  pathLength,
  polyline,
  samePoint,
} from '../../src/geom/index.js';
import { type Drawing, DXF_KINDS, type DxfKind, type Path, PLAIN_IMPORT } from '../../src/model.js';
import { dxf } from '../../src/write/dxf.js';
import { deviation } from '../support/deviation.js';
import {
  anyDrawing,
  anyPath,
  boxDrawing,
  CONVENTION,
  drawing,
  SPECIMEN,
} from '../support/drawings.js';
import { output, run } from './run.js';

interface Found {
  readonly version: string;
  readonly units: number;
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly kinds: readonly string[];
  readonly colours: Readonly<Record<string, number>>;
  readonly counts: Readonly<Record<string, number>>;
  readonly lengths: Readonly<Record<string, number>>;
  readonly arcs: readonly { bulge: number; radius: number; centre: [number, number] }[];
  readonly points: readonly (readonly [number, number])[][];
  readonly extents: readonly number[][];
  readonly limits: readonly number[][];
}

const SCRIPT = fileURLToPath(new URL('read_dxf.py', import.meta.url));
/** A file as ezdxf sees it (Debian's python3-ezdxf, whatever other Python is installed). */
const ezdxf = (text: string, ...asked: 'points'[]): Found =>
  JSON.parse(output('/usr/bin/python3', [SCRIPT, ...asked], text).toString()) as Found;

const write = (given: Drawing, kind: DxfKind) =>
  dxf.write(given, CONVENTION, { ...PLAIN_IMPORT, dxf: kind });

/** Length of each layer's lines, mm. */
const lengths = (given: Drawing, kind: DxfKind): Record<string, number> =>
  Object.fromEntries(
    given.layers.map(l => [
      l.operation.toUpperCase(),
      l.paths.reduce((sum, p) => sum + pathLength(kind === 'r2000-splines' ? p : fitArcs(p)), 0),
    ]),
  );

function expectSound(given: Drawing, kind: DxfKind): Found {
  const found = ezdxf(write(given, kind));
  expect(found.errors).toEqual([]);
  expect(found.fixes).toEqual([]);
  expect(found.version).toBe(kind === 'r12' ? 'AC1009' : 'AC1015');
  expect(found.units).toBe(4);
  const wanted = lengths(given, kind);
  expect(Object.keys(found.lengths).sort()).toEqual(Object.keys(wanted).sort());
  for (const [layer, length] of Object.entries(wanted)) {
    // Each corner may move by 0.0007 mm onto the file's grid.
    expect(Math.abs(found.lengths[layer]! - length), layer).toBeLessThan(0.05);
  }
  return found;
}

const KINDS: Readonly<Record<DxfKind, readonly string[]>> = {
  r12: ['ARC', 'CIRCLE', 'LINE', 'POLYLINE'],
  r2000: ['ARC', 'CIRCLE', 'LINE', 'LWPOLYLINE'],
  'r2000-splines': ['ARC', 'CIRCLE', 'LINE', 'LWPOLYLINE', 'SPLINE'],
};

describe.each(DXF_KINDS)('ezdxf reads %s:', kind => {
  it('finds no error and nothing to mend, and measures the lengths that were drawn', () => {
    const found = expectSound(SPECIMEN, kind);
    expect(found.kinds).toEqual(KINDS[kind]);
    expect(found.counts).toEqual({ DRAW: 1, SCORE: 2, PERFORATE: 1, CUT: 3, REGISTER: 3 });
    expect(found.colours).toMatchObject({ DRAW: 5, SCORE: 1, PERFORATE: 6, CUT: 7, REGISTER: 3 });
    expect(found.limits[1]!.slice(0, 2)).toEqual([210, 297]);
    expect(found.extents[0]!.slice(0, 2)).toEqual([5, 5]);
    expectSound(boxDrawing(), kind);
    expectSound(drawing({}), kind);
  });

  it('finds random drawings sound', () => {
    fc.assert(
      fc.property(
        anyDrawing().filter(d => d.layers.length > 0),
        d => {
          expectSound(d, kind);
        },
      ),
      { seed: 91, numRuns: 6 },
    );
  });

  it('draws every curve within 0.01 mm of what it was, and nothing else', () => {
    const paths = fc.sample(anyPath(), { seed: 92, numRuns: 30 });
    const { points } = ezdxf(write(drawing({ cut: paths }), kind), 'points');
    expect(points).toHaveLength(paths.length);
    paths.forEach((path, i) => {
      const chain = points[i]!.filter((p, k, all) => k === 0 || !samePoint(p, all[k - 1]!));
      const back = { ...polyline(chain), closed: path.closed };
      expect(deviation(path, back, 1e-3)).toBeLessThan(0.01);
    });
  });

  it('can find fault: a colour that is none, a file broken off', () => {
    const text = write(SPECIMEN, kind);
    const spoilt = text.replace(/( *8\nSCORE\n)(?! *0\nVERTEX)/, '$1 62\n999\n');
    expect(spoilt).not.toBe(text);
    const { errors, fixes } = ezdxf(spoilt);
    expect(errors.length + fixes.length).toBeGreaterThan(0);
    expect(run('/usr/bin/python3', [SCRIPT], text.slice(0, 1001)).code).not.toBe(0);
  });
});

/** A file tells a bulge to a hundredth of its step of 0.001 mm, as the height of the arc over its chord. */
const expectBulge = (found: number, bulge: number, chord: number) =>
  expect((Math.abs(found - bulge) * chord) / 2).toBeLessThanOrEqual(1e-5);

it('expectBulge fails where an arc is higher by more', () => {
  expect(() => expectBulge(0.100001, 0.1, 100)).toThrow();
  expect(() => expectBulge(-1, 1, 10)).toThrow();
});

describe.each(['r12', 'r2000'] as const)('bulges in %s', kind => {
  const arcsOf = (path: Path) => ezdxf(write(drawing({ cut: [path] }), kind)).arcs;

  // Included angle and bulge: check-values.md section 4 (tan of a quarter of the angle).
  it.each([
    [30, 0.1316524976],
    [45, 0.1989123674],
    [60, 0.2679491924],
    [90, 0.4142135624],
    [120, 0.5773502692],
    [180, 1],
    [270, 2.4142135624],
  ])('of %i degrees are %f, either way', (angleDeg, bulge) => {
    const sweep = (angleDeg * Math.PI) / 180;
    const both = openPath([50, 50], [arcTo([60, 50], sweep), arcTo([60, 70], -sweep)]);
    const found = arcsOf(both);
    expect(found).toHaveLength(2);
    expectBulge(found[0]!.bulge, bulge, 10);
    expectBulge(found[1]!.bulge, -bulge, 20);
  });

  // Segment, bulge, radius and centre: the same section (ezdxf's test_601_bulge.py and algebra).
  it.each([
    [[0, 0], [10, 0], 0.5, 6.25, [5, 3.75]],
    [[0, 0], [10, 0], -0.5, 6.25, [5, -3.75]],
    [[0, 0], [10, 0], 1, 5, [5, 0]],
    [[10, 0], [0, 10], Math.tan(Math.PI / 8), 10, [0, 0]],
    [[0, 0], [100, 0], 0.1, 252.5, [50, 247.5]],
  ] as const)('%j to %j by %f turn on a radius of %f about %j', (from, to, bulge, r, centre) => {
    const path = openPath([-20, -20], [line(from), { kind: 'arc', to, bulge }, line([-20, 90])]);
    const [arc, ...others] = arcsOf(path);
    expect(others).toEqual([]);
    expectBulge(arc!.bulge, bulge, Math.hypot(to[0] - from[0], to[1] - from[1]));
    // A flat arc's centre moves by more than its paper does: by 25 units for one, at a bulge of 0.1.
    expect(arc!.radius).toBeCloseTo(r, 3);
    expect(arc!.centre[0]).toBeCloseTo(centre[0], 3);
    expect(arc!.centre[1]).toBeCloseTo(centre[1], 3);
  });
});
