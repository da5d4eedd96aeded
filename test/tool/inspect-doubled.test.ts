/** Lines worked twice that are no cuts. */
import { describe, expect, it } from 'vitest';
import { type Path, polyline, reverse } from '../../src/geom/index.js';
import type { Operation } from '../../src/model.js';
import { inspectDrawing } from '../../src/tool/inspect.js';

const fold = (x: number): Path =>
  polyline([
    [x, 10],
    [x, 50],
  ]);
const found = (operation: Operation, paths: readonly Path[]) =>
  inspectDrawing({
    name: '',
    width: 100,
    height: 80,
    layers: [{ operation, paths }],
  }).findings.filter(f => f.kind === 'duplicate');

describe('lines worked twice', () => {
  it.each<[Operation, string]>([
    ['score', 'warning'],
    ['perforate', 'warning'],
    ['draw', 'note'],
  ])('of %s are told as %s, with their length and place', (operation, severity) => {
    const [told, ...more] = found(operation, [fold(10), fold(20), fold(10)]);
    expect(more).toEqual([]);
    expect(told).toMatchObject({ severity, total: 1, places: [{ at: [10, 30], size: 40 }] });
    expect(told!.message).toMatch(/^40 mm of .* lie on others \(1 whole line twice\)/);
  });

  it('of which one is longer than the other, run the other way, or are pasted next to themselves', () => {
    const half = polyline([
      [10, 60],
      [10, 40],
    ]);
    expect(found('score', [fold(10), half])[0]!.message).toMatch(/^10 mm of scores/);
    expect(found('score', [fold(10), fold(10)])[0]!.severity).toBe('warning');
    expect(found('score', [fold(10), fold(20), reverse(fold(10))])[0]!.severity).toBe('warning');
  });

  it('are none where lines only meet, cross, or are of two operations', () => {
    const across = polyline([
      [0, 30],
      [50, 30],
    ]);
    expect(found('score', [fold(10), fold(10.1), across])).toEqual([]);
    const layers = (['score', 'draw'] as const).map(operation => ({
      operation,
      paths: [fold(10)],
    }));
    const { findings } = inspectDrawing({ name: '', width: 100, height: 80, layers });
    expect(findings.map(f => f.kind)).not.toContain('duplicate');
  });

  it('there and back, all alike, are passes: a note, and what lies on them besides is told', () => {
    const passes = [10, 20, 30].flatMap(x => [fold(x), reverse(fold(x)), fold(x)]);
    const told = found('score', passes);
    expect(told.map(f => f.severity)).toEqual(['note']);
    expect(told[0]!.message).toMatch(/worked 3 times in a row/);
    const twice = [...passes, fold(10), reverse(fold(10)), fold(10)];
    expect(found('score', twice).map(f => f.severity)).toEqual(['warning', 'note']);
    expect(found('score', passes.slice(1))[0]!.severity).toBe('warning');
  });
});
