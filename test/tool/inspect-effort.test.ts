/** Dense and huge drawings are inspected with bounded work, and what was not looked at is told. The work is
 *  counted, not timed: a busy machine makes no test fail. */
import { describe, expect, it } from 'vitest';
import { type Path, polyline, rectangle } from '../../src/geom/index.js';
import type { Drawing } from '../../src/model.js';
import { chordsOf, joined, stray } from '../../src/tool/chords.js';
import { crossings } from '../../src/tool/crossings.js';
import { Effort } from '../../src/tool/effort.js';
import { Grid } from '../../src/tool/grid.js';
import { inspectDrawing } from '../../src/tool/inspect.js';
import { dropShared } from '../../src/tool/shared-lines.js';
import { loopsAt } from '../../src/tool/swing-loops.js';
import { tipPlaces } from '../../src/tool/tip-places.js';

const sheet = (paths: readonly Path[]): Drawing => ({
  name: 'dense',
  width: 300,
  height: 300,
  layers: [{ operation: 'cut', paths }],
});
/** Lines across each other's rectangles that neither cross nor touch. */
const hatching = (n: number, pitch = 0.05): Path[] =>
  Array.from({ length: n }, (_, i) =>
    polyline([
      [i * pitch, 0],
      [i * pitch + 100, 100],
    ]),
  );
const endless = () => new Effort(Number.POSITIVE_INFINITY);

describe('work is bounded', () => {
  it.each([1000, 2000])('%d copies of one line cost one look, and are one place', n => {
    const copies = Array.from({ length: n }, () => hatching(1)[0]!);
    const effort = endless();
    const once = dropShared(copies, effort);
    expect([effort.spent, once.paths.length, once.duplicates]).toEqual([1, 1, n - 1]);
    const report = inspectDrawing(sheet(copies));
    const doubled = report.findings.find(f => f.kind === 'duplicate')!;
    expect(doubled.total).toBe(1);
    expect(doubled.places[0]!.at[0]).toBeCloseTo(50, 6);
  });

  it('a search for crossings and one for doubled lines stop where their effort is over', () => {
    const lines = hatching(600);
    for (const search of [crossings, dropShared]) {
      const all = endless();
      search(lines, all);
      expect(all.left).toBeUndefined();
      const some = new Effort(all.spent / 10);
      search(lines, some);
      expect(some.spent).toBeLessThan(all.spent / 10 + 2 * lines.length);
      expect(some.left!.looked).toBeGreaterThan(0);
      expect(some.left!.looked).toBeLessThan(some.left!.of);
    }
  });

  it('squares of a grid hold no more than a fixed number of entries for each chord', () => {
    const perChord = [500, 1000, 2000].map(n => {
      const xy = joined(hatching(n, 0.002).map(path => chordsOf(path, 0.01)));
      const chords = xy.length / 2 - 1;
      return new Grid(xy, chords).items.length / chords;
    });
    // A chord that leaves its squares at an angle is told to a few more than it crosses.
    for (const entries of perChord) expect(entries).toBeLessThan(4 * 32);
  });

  it('how far one chain strays, and where, is looked at no longer than the effort', () => {
    const lines = hatching(400, 0.01);
    const chain = joined(lines.map(path => chordsOf(path, 0.01)));
    const away = chain.map(v => v + 0.3);
    const all = endless();
    stray(away, chain, 0.01, () => {}, all);
    const some = new Effort(all.spent / 10);
    let told = 0;
    const tally = () => {
      told++;
    };
    stray(away, chain, 0.01, tally, some);
    expect(some.spent).toBeLessThan(all.spent / 5);
    expect(told).toBeGreaterThan(0);
    const places = new Effort(1000);
    tipPlaces(lines, [{ xy: away, headingAfter: 0 }], 0.01, places);
    expect(places.left!.looked).toBeLessThan(places.left!.of);
  });
});

describe('what was not looked at is told', () => {
  const unchecked = (paths: readonly Path[], share?: number) =>
    inspectDrawing(sheet(paths), { bladeOffset: 0.25, ...(share !== undefined && { share }) });

  it('as a fault, where a fault may be in it; with numbers in the words and in the report', () => {
    const whole = unchecked(hatching(100, 1));
    expect([whole.good, whole.notChecked]).toEqual([true, []]);
    const report = unchecked(hatching(100, 1), 1e-5);
    expect(report.good).toBe(false);
    expect(report.notChecked.map(n => n.sought)).toContain('crossing cuts');
    const { looked, of, units } = report.notChecked.find(n => n.sought === 'crossing cuts')!;
    expect(looked).toBeLessThan(of);
    const told = report.findings.filter(f => f.kind === 'unchecked' && f.severity === 'fault');
    expect(told.map(f => f.message).join()).toContain(
      `crossing cuts among the first ${looked} of ${of} ${units}; the rest was not checked`,
    );
  });

  it('loops of open cuts have one effort in all, not one for each', () => {
    const zigzag = (x: number) =>
      polyline(Array.from({ length: 40 }, (_, i) => [x + (i % 2) * 3, i * 0.5]));
    const cuts = Array.from({ length: 80 }, (_, i) => zigzag(i * 3.5));
    expect(inspectDrawing(sheet(cuts)).notChecked).toEqual([]);
    const loops = inspectDrawing(sheet(cuts), { share: 1e-4 }).notChecked.find(n =>
      n.sought.startsWith('loops'),
    )!;
    expect(loops.of).toBe(80);
    expect(loops.looked).toBeGreaterThan(0);
    expect(loops.looked).toBeLessThan(80);
  });

  it('of more lines than a blade is followed along', () => {
    const squares = Array.from({ length: 5001 }, (_, i) =>
      rectangle((i % 73) * 4, Math.floor(i / 73) * 4, 3, 3.5),
    );
    const report = unchecked(squares);
    const tip = report.notChecked.find(n => n.units === 'lines and curves');
    expect(tip).toMatchObject({ looked: 20_000, of: 20_004 });
    expect(report.notChecked.find(n => n.units === 'closed cuts')).toMatchObject({ looked: 0 });
    expect(report.good).toBe(true);
  });
});

it.each([
  [1, 1],
  [1.5, 0.2],
  [4, 3],
])('a loop about a rectangle of %d × %d is as long as its sides', (w, h) => {
  // In at its lower left corner along one side, and out along the other.
  const path = polyline([
    [-20, 0],
    [w, 0],
    [w, h],
    [0, h],
    [0, -20],
  ]);
  expect(loopsAt(path, [[0, 0]])[0]).toBeCloseTo(2 * (w + h), 9);
});

it('130,000 segments in one path, and in as many, do not overflow the stack', () => {
  const n = 130_000;
  const at = (i: number): [number, number] => [
    (i % 500) * 0.5,
    Math.floor(i / 500) * 0.5 + (i % 2) * 0.4,
  ];
  const one = polyline(Array.from({ length: n }, (_, i) => at(i)));
  const many = Array.from({ length: n }, (_, i) => polyline([at(i), [at(i)[0] + 0.4, at(i)[1]]]));
  for (const paths of [[one], many]) {
    expect(inspectDrawing(sheet(paths)).operations[0]!.paths).toBe(paths.length);
  }
}, 120_000);
