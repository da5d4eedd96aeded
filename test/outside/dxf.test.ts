import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitArcs, pathLength } from '../../src/geom/index.js';
import type { Drawing } from '../../src/model.js';
import { dxf } from '../../src/write/dxf.js';
import { anyDrawing, boxDrawing, CONVENTION, SPECIMEN } from '../support/drawings.js';
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
  readonly extents: readonly number[][];
  readonly limits: readonly number[][];
}

const SCRIPT = fileURLToPath(new URL('read_dxf.py', import.meta.url));
/** A file as ezdxf sees it (Debian's python3-ezdxf, whatever other Python is installed). */
const ezdxf = (text: string): Found =>
  JSON.parse(output('/usr/bin/python3', [SCRIPT], text).toString()) as Found;

/** Length of each layer's lines, mm. */
const lengths = (drawing: Drawing): Record<string, number> =>
  Object.fromEntries(
    drawing.layers.map(l => [
      l.operation.toUpperCase(),
      l.paths.reduce((sum, p) => sum + pathLength(fitArcs(p)), 0),
    ]),
  );

function expectSound(drawing: Drawing): Found {
  const found = ezdxf(dxf.write(drawing, CONVENTION));
  expect(found.errors).toEqual([]);
  expect(found.fixes).toEqual([]);
  expect(found.version).toBe('AC1009');
  expect(found.units).toBe(4);
  const wanted = lengths(drawing);
  expect(Object.keys(found.lengths).sort()).toEqual(Object.keys(wanted).sort());
  for (const [layer, length] of Object.entries(wanted)) {
    // Each corner may move by 0.0007 mm onto the file's grid.
    expect(Math.abs(found.lengths[layer]! - length), layer).toBeLessThan(0.05);
  }
  return found;
}

describe('ezdxf', () => {
  it('finds no error and nothing to mend, and measures the lengths that were drawn', () => {
    const found = expectSound(SPECIMEN);
    expect(found.kinds).toEqual(['ARC', 'CIRCLE', 'LINE', 'POLYLINE']);
    expect(found.counts).toEqual({ DRAW: 1, SCORE: 2, PERFORATE: 1, CUT: 3, REGISTER: 3 });
    expect(found.colours).toMatchObject({ DRAW: 5, SCORE: 1, PERFORATE: 6, CUT: 7, REGISTER: 3 });
    expect(found.limits[1]!.slice(0, 2)).toEqual([210, 297]);
    expect(found.extents[0]!.slice(0, 2)).toEqual([5, 5]);
    expectSound(boxDrawing());
  });

  it('finds random drawings sound', () => {
    fc.assert(
      fc.property(
        anyDrawing().filter(d => d.layers.length > 0),
        d => {
          expectSound(d);
        },
      ),
      { seed: 91, numRuns: 6 },
    );
  });

  it('can find fault: a colour that is none, a file broken off', () => {
    const text = dxf.write(SPECIMEN, CONVENTION);
    const spoilt = text.replace(/LINE\n {2}8\nSCORE\n/, '$& 62\n999\n');
    const { errors, fixes } = ezdxf(spoilt);
    expect(errors.length + fixes.length).toBeGreaterThan(0);
    expect(run('/usr/bin/python3', [SCRIPT], text.slice(0, 1001)).code).not.toBe(0);
  });
});
