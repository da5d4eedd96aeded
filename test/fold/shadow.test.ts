/** The light on folded boxes against closed forms of blocks and cylinders. */
import { describe, expect, it } from 'vitest';
import { litParts, seenParts } from '../../src/fold/index.js';
import { LAMP } from '../../src/fold/view.js';
import type { Net, Point } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';

const VIEW = { azimuth: -1.08, elevation: 0.46 };
const FROM_ABOVE = { azimuth: -Math.PI / 2, elevation: Math.PI / 2 };

function netsOf(
  id: string,
  [length, width, height]: readonly [number, number, number],
  thickness = 0,
): readonly Net[] {
  const style = STYLES.find(s => s.id === id)!;
  const spec = { inside: { length, width, height }, thickness };
  return style.build(spec, fillParams(style.params, {}));
}

/** How often loops wind about a point. */
const winding = (loops: readonly (readonly Point[])[], [x, y]: Point): number =>
  loops.reduce((sum, loop) => {
    let turns = 0;
    loop.forEach(([ax, ay], i) => {
      const [bx, by] = loop[(i + 1) % loop.length]!;
      if (ay > y === by > y) return;
      if (x < ax + ((y - ay) * (bx - ax)) / (by - ay)) turns += by > ay ? 1 : -1;
    });
    return sum + turns;
  }, 0);

/** Points on lines through the middle of a convex polygon. */
const within = (polygon: readonly Point[]): Point[] => {
  const mean = (i: 0 | 1) => polygon.reduce((s, p) => s + p[i], 0) / polygon.length;
  const [x, y] = [mean(0), mean(1)];
  return polygon.flatMap(([px, py]) =>
    Array.from({ length: 50 }, (_, i): Point => {
      const k = (i + 0.5) / 50;
      return [x + (px - x) * k, y + (py - y) * k];
    }),
  );
};

describe('light on a folded box', () => {
  it('lets a block throw the shadow of a block: its foot, swept along the light', () => {
    const [l, w, h] = [60, 40, 70] as const;
    const { table } = litParts([{ net: netsOf('straight-tuck', [l, w, h])[0]! }], FROM_ABOVE);
    expect(table.length).toBeGreaterThan(5);
    const STEP = 0.5;
    for (const loops of table) {
      const all = loops.flat();
      const [xs, ys] = [all.map(p => p[0]), all.map(p => p[1])];
      const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
      // The lid's corner is thrown farthest: so much is swept.
      const [sx, sy] = [x1 - x0 - l, y1 - y0 - w];
      expect(sx).toBeGreaterThan(5);
      let area = 0;
      for (let x = x0 + STEP / 2; x < x1; x += STEP) {
        for (let y = y0 + STEP / 2; y < y1; y += STEP) {
          if (winding(loops, [x, y]) !== 0) area += STEP * STEP;
        }
      }
      const due = l * w + l * sy + w * sx;
      expect(Math.abs(area - due) / due).toBeLessThan(0.01);
    }
  });

  it('knows how high over the table every part is that is seen', () => {
    const h = 45;
    const { parts } = litParts([{ net: netsOf('straight-tuck', [60, 40, h])[0]! }], VIEW);
    const heights = parts.flatMap(({ lit, polygon }) => {
      const [a, b, c] = lit!.height;
      return polygon.map(([x, y]) => a * x + b * y + c);
    });
    expect(Math.min(...heights)).toBeCloseTo(0, 6);
    expect(Math.max(...heights)).toBeCloseTo(h, 6);
    const lids = parts.filter(p => p.panel === 'top' && p.side === 'outside');
    for (const { lit } of lids) {
      for (const got of [lit!.height[0], lit!.height[1]]) expect(got).toBeCloseTo(0, 9);
      expect(lit!.height[2]).toBeCloseTo(h, 6);
    }
  });

  it('turns evenly round a drum: cosines of the angle to the lamp', () => {
    const parts = litParts(
      netsOf('drum', [80, 80, 50]).map(net => ({ net })),
      VIEW,
    ).parts.filter(p => p.lit!.turning && p.side === 'outside');
    expect(parts.length).toBeGreaterThan(50);
    const flat = Math.hypot(LAMP[0], LAMP[1]);
    for (const { lit, light } of parts) {
      const [a, b] = lit!.turning!.lights;
      for (const v of [a, b]) expect(Math.abs(v)).toBeLessThanOrEqual(flat + 1e-9);
      expect(light).toBeGreaterThan(Math.min(a, b) - 0.02);
      expect(light).toBeLessThan(Math.max(a, b) + 0.02);
    }
  });

  it('lets the rim of a lid fall on the base, and nothing on the lid', () => {
    const nets = netsOf('lid-and-base', [60, 50, 25], 0.4);
    const { parts } = litParts(
      nets.map(net => ({ net })),
      VIEW,
    );
    const fallen = (net: Net) =>
      parts.some(
        p =>
          p.net === net.id &&
          p.side === 'outside' &&
          p.lit!.shadows.some(loops => within(p.polygon).some(c => winding(loops, c) !== 0)),
      );
    const top = nets.find(n => n.up && n.up[2] < 0)!;
    const lid = parts.filter(p => p.net === top.id && p.panel === top.root && p.side === 'outside');
    expect(lid.length).toBeGreaterThan(0);
    for (const p of lid) expect(p.lit!.shadows).toEqual([]);
    expect(nets.filter(fallen).length).toBe(1);
  });

  it('paints what is seen without it', () => {
    const standing = [{ net: netsOf('gable', [60, 40, 40])[0]! }];
    const { parts } = litParts(standing, VIEW);
    expect(parts.map(({ lit: _, ...part }) => part)).toEqual(seenParts(standing, VIEW));
  });
});
