/** What is seen on a finished box beside paper: its films, cuts, creases and dots are the nets' own. */
import { describe, expect, it } from 'vitest';
import { litParts } from '../../src/fold/index.js';
import { apply, bounds, line, openPath } from '../../src/geom/index.js';
import { faceMarks, filmsOf } from '../../src/item-finish.js';
import type { Net, Point, Stroke } from '../../src/model.js';
import { SHOWN_FEATURES, shownNets } from '../support/shown-features.js';

const VIEW = { azimuth: -1.08, elevation: 0.46 };
const shown = (id: string) => shownNets(SHOWN_FEATURES.find(f => f.id === id)!);

const inside = (polygon: readonly Point[], [x, y]: Point): boolean => {
  let odd = false;
  polygon.forEach(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length]!;
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) odd = !odd;
  });
  return odd;
};

describe('the finish of a box', () => {
  it('has the film before all else in its window, and the box behind it', () => {
    const { nets, pieces } = shown('window');
    const films = filmsOf({ pieces });
    expect(films.length).toBe(1);
    const net = nets[0]!;
    const [hole] = net.panels.find(p => p.id === 'front')!.holes;
    const [film, window] = [bounds(films[0]!.outline), bounds(hole!)];
    expect(film.minX).toBeLessThan(window.minX - 1);
    expect(film.maxY).toBeGreaterThan(window.maxY + 1);
    const { parts } = litParts([{ net, films }], VIEW);
    const front = parts.find(p => p.panel === 'front' && p.side === 'outside')!;
    const middle: Point = [(window.minX + window.maxX) / 2, (window.minY + window.maxY) / 2];
    const seen = parts.filter(p => inside(p.polygon, apply(front.at, middle)));
    expect(seen.at(-1)!.film).toBe(true);
    expect(seen.at(-2)!.side).toBe('inside');
    // At its rim the paper lies over it.
    const rim: Point = [window.minX - 1, middle[1]];
    const over = parts.filter(p => inside(p.polygon, apply(front.at, rim)));
    expect(over.at(-1)!.film).toBeUndefined();
    expect(over.some(p => p.film)).toBe(true);
    // It throws no shadow, and nothing is thrown by paper that lies behind the face.
    const bare = litParts([{ net }], VIEW);
    expect(litParts([{ net, films }], VIEW).table).toEqual(bare.table);
  });

  it('shows cuts and perforations on both faces, pen lines on the inside', () => {
    const all = (id: string) => faceMarks(shown(id).nets);
    const strip = all('tear-strip').filter(m => m.kind === 'perforation');
    expect(strip.filter(m => m.side === 'inside').length).toBe(
      strip.filter(m => m.side === 'outside').length,
    );
    expect(new Set(strip.map(m => m.panel)).size).toBeGreaterThan(3);
    const [net] = shown('window').nets;
    const cut: Stroke = { operation: 'cut', path: openPath([5, 5], [line([9, 5])]) };
    const panels = net!.panels.map(p => ({ ...p, strokes: [...p.strokes, cut] }));
    const slits = faceMarks([{ ...net!, panels }]).filter(m => m.kind === 'slit');
    expect(slits.length).toBe(2 * panels.length);
    const pen = all('hinge-marks').filter(m => m.kind === 'pen');
    expect(pen.length).toBeGreaterThan(4);
    for (const m of pen) expect(m.side).toBe('inside');
  });

  it('sticks the halves of every closure where they meet', () => {
    for (const [id, kind] of [
      ['closure-magnet', 'magnet'],
      ['closure-sticker', 'sticker'],
      ['closure-hook-and-loop', 'hook-and-loop'],
    ] as const) {
      const { nets } = shown(id);
      const dots = faceMarks(nets).filter(m => m.kind === kind);
      const closures = nets.flatMap((n: Net) => n.closures);
      expect(dots.length).toBe(2 * closures.length);
      closures.forEach(({ a, at, diameter }, i) => {
        const b = bounds(dots[2 * i]!.path);
        expect(dots[2 * i]!.panel).toBe(a);
        expect((b.minX + b.maxX) / 2).toBeCloseTo(at[0], 9);
        expect(b.maxY - b.minY).toBeCloseTo(diameter, 9);
      });
    }
  });
});
