/**
 * The dragged blade against values from outside. Sources: the generalised tractrix
 * dθ/ds = sin(φ − θ)/d (2dcurves.com, "generalized tractrix"; Sayers, Vehicle System Dynamics 20(5)
 * 1991; Dunbar, Bosman and Nooij, "The Track of a Bicycle Back Tire"). Tables: the project's check
 * values, section 5, integrated numerically to 1e-9 apart from this code. The shop rule for circles,
 * √(r² + d²), from a machinists' forum thread of 2009.
 */
import { describe, expect, it } from 'vitest';
import {
  arcTo,
  circle,
  openPath,
  type Path,
  type Point,
  pathLength,
  polar,
  polygon,
  polyline,
  rectangle,
} from '../../src/geom/index.js';
import { compensatePaths } from '../../src/tool/compensate.js';
import { dragTip } from '../../src/tool/simulate.js';
import { tipError } from '../../src/tool/tip-error.js';

const DEG = Math.PI / 180;
const d = 0.25;

/** Tip and heading after dragging along one path. */
function dragged(path: Path, offset: number, heading: number) {
  const [track] = dragTip([path], offset, heading);
  const { xy, headingAfter } = track!;
  return { x: xy.at(-2)!, y: xy.at(-1)!, heading: headingAfter };
}

describe('settling along a line', () => {
  // s, then lag (deg) and tip distance from the line (mm) from 90°, 45° and 135°, d = 0.25 mm.
  const table = [
    [0.125, 62.476192, 0.221705, 28.205453, 0.118159, 111.339887, 0.23286],
    [0.25, 40.395063, 0.162014, 17.328237, 0.074461, 83.219092, 0.248251],
    [0.5, 15.414627, 0.066451, 6.417024, 0.027941, 36.187358, 0.147607],
    [1.0, 2.098583, 0.009155, 0.869342, 0.003793, 5.063695, 0.022066],
    [2.0, 0.038441, 0.000168, 0.015923, 0.000069, 0.092805, 0.000405],
  ] as const;
  for (const [s, ...rest] of table) {
    for (const [k, start] of [90, 45, 135].entries()) {
      it(`${s} mm from ${start}°`, () => {
        const end = dragged(
          polyline([
            [0, 0],
            [s, 0],
          ]),
          d,
          -start * DEG,
        );
        expect(-end.heading / DEG).toBeCloseTo(rest[2 * k]!, 6);
        expect(end.y).toBeCloseTo(rest[2 * k + 1]!, 6);
      });
    }
  }

  it.each([
    [30, 3.4244],
    [45, 3.86],
    [60, 4.192],
    [90, 4.7413],
    [120, 5.2907],
    [150, 6.0583],
    [170, 7.1776],
  ])('from %d° within 1° after %f offsets', (start, offsets) => {
    const lagAfter = (s: number) =>
      -dragged(
        polyline([
          [0, 0],
          [s * d, 0],
        ]),
        d,
        -start * DEG,
      ).heading / DEG;
    expect(lagAfter(offsets - 1e-4)).toBeGreaterThan(1);
    expect(lagAfter(offsets + 1e-4)).toBeLessThan(1);
  });
});

it('a blade pushed dead against its heading stays so, however far, and nothing breaks', () => {
  for (const s of [0.1, 10, 1000]) {
    const line = polyline([
      [0, 0],
      [0, s],
    ]);
    const [track] = dragTip([line], d, -Math.PI / 2);
    expect(track!.xy.length).toBeLessThan(400);
    expect(track!.xy.every(Number.isFinite)).toBe(true);
  }
  const back = openPath(
    [0, 0],
    [{ kind: 'line', to: [0, 30] }, { kind: 'line', to: [0, 0] }, arcTo([5, 0], 1)],
  );
  expect(dragTip([back], d)[0]!.xy.every(Number.isFinite)).toBe(true);
});

describe('circles', () => {
  const arcOf = (radius: number, sweep: number): Path =>
    openPath([radius, 0], [arcTo(polar(radius, sweep), sweep)]);

  it.each([
    [0.5, 0.433013, 30],
    [1, 0.968246, 14.4775],
    [5, 4.993746, 2.866],
    [10, 9.996875, Math.asin(0.025) / DEG],
  ])('a pivot on radius %f carries the tip steadily on %f', (radius, tip, lagDeg) => {
    const start = Math.PI / 2 - lagDeg * DEG;
    const turn = openPath([radius, 0], circle([0, 0], radius).segments);
    const [track] = dragTip([turn], d, start);
    for (let i = 0; i < track!.xy.length; i += 2) {
      expect(Math.hypot(track!.xy[i]!, track!.xy[i + 1]!)).toBeCloseTo(tip, 5);
    }
  });

  it.each([
    [0.25, 0.99183],
    [0.5, 0.977151],
    [1, 0.969525],
    [2, 0.968272],
    [5, 0.968246],
  ])('R = 1 from the tangent: after %f mm the tip is at radius %f', (s, radius) => {
    const end = dragged(arcOf(1, s), d, Math.PI / 2);
    expect(Math.hypot(end.x, end.y)).toBeCloseTo(radius, 6);
  });

  it.each([
    [0.5, 0.559017],
    [1, 1.030776],
    [5, 5.006246],
    [10, 10.003125],
  ])('a wanted radius %f is driven on %f, as arcs', (r, pivot) => {
    const { driven } = compensatePaths([circle([0, 0], r)], { offset: d, overcut: 0 });
    expect(driven[0]!.segments.map(s => s.kind)).toEqual(['arc', 'arc']);
    for (const p of [driven[0]!.start, ...driven[0]!.segments.map(s => s.to)]) {
      expect(Math.hypot(p[0], p[1])).toBeCloseTo(pivot, 6);
    }
  });
});

describe('corners that nobody compensated', () => {
  it.each([
    [30, 0.195284],
    [45, 0.298135],
    [60, 0.407824],
    [90, 0.662743],
    [120, 1.011677],
    [135, 1.260372],
  ])('a turn of %d° is missed by %f offsets', (turn, miss) => {
    // At turns over 90° the tip first backs away from the corner (it was one offset from it): the
    // table gives the nearest it comes when it passes, the dip of the distance.
    for (const offset of [0.175, 0.25, 1]) {
      const leg = polyline([[0, 0], polar(40, turn * DEG)]);
      const [track] = dragTip([leg], offset, 0, 1e-7);
      const away: number[] = [];
      for (let i = 0; i < track!.xy.length; i += 2) {
        away.push(Math.hypot(track!.xy[i]!, track!.xy[i + 1]!));
      }
      const dips = away.filter((v, i) => v < away[i - 1]! && v < away[i + 1]!);
      expect(dips).toHaveLength(1);
      expect(dips[0]! / offset).toBeCloseTo(miss, 5);
    }
  });

  it('a square leaves about 0.6627 offsets uncut at its corners', () => {
    const square = rectangle(0, 0, 100, 100);
    const error = tipError([square], [square], d);
    expect(error.uncutMax / d).toBeCloseTo(0.6627, 2);
  });
});

describe('pivot length', () => {
  const lengthOf = (path: Path, offset = d) => {
    const { driven } = compensatePaths([path], { offset, overcut: 0 });
    return pathLength(driven[0]!);
  };
  const lastSwing = (turn: number) => (d * turn * Math.PI) / 180;
  it('square of side 100: perimeter + 2πd = 401.570796', () => {
    expect(lengthOf(rectangle(0, 0, 100, 100)) + lastSwing(90)).toBeCloseTo(401.570796, 6);
  });
  it('hexagon of side 20: 121.570796', () => {
    const hexagon = polygon([0, 1, 2, 3, 4, 5].map(i => polar(20, i * 60 * DEG)));
    expect(lengthOf(hexagon) + lastSwing(60)).toBeCloseTo(121.570796, 6);
  });
  it('pentagram: total turn 4π (1080° for its outline with notches): swings of 4.712389', () => {
    const points: Point[] = [];
    for (let i = 0; i < 10; i++) {
      points.push(polar(i % 2 ? 20 * (Math.sin(18 * DEG) / Math.sin(54 * DEG)) : 20, i * 36 * DEG));
    }
    const star = polygon(points);
    // Five points turn 144°, five notches 72° back: 1080° in all.
    expect(lengthOf(star) + lastSwing(144) - pathLength(star)).toBeCloseTo(4.712389, 6);
  });
  it('an overcut adds the last swing and its own length', () => {
    const { driven } = compensatePaths([rectangle(0, 0, 100, 100)], { offset: d, overcut: 1 });
    expect(pathLength(driven[0]!)).toBeCloseTo(401.570796 + 1, 6);
  });
});

describe('a second opinion: the classical Runge–Kutta method', () => {
  /** Fourth-order Runge–Kutta on dθ/ds = sin(φ(s) − θ)/d along a path of lines and arcs. */
  function integrate(path: Path, offset: number, heading: number, step: number) {
    let theta = heading;
    let from = path.start;
    let end: Point = from;
    for (const s of path.segments) {
      const chord = Math.hypot(s.to[0] - from[0], s.to[1] - from[1]);
      const sweep = s.kind === 'arc' ? 4 * Math.atan(s.bulge) : 0;
      const length = sweep === 0 ? chord : (chord * sweep) / 2 / Math.sin(sweep / 2);
      const phi0 = Math.atan2(s.to[1] - from[1], s.to[0] - from[0]) - sweep / 2;
      const rate = (at: number, t: number) => Math.sin(phi0 + (sweep * at) / length - t) / offset;
      const n = Math.ceil(length / step);
      const h = length / n;
      for (let i = 0; i < n; i++) {
        const at = i * h;
        const k1 = rate(at, theta);
        const k2 = rate(at + h / 2, theta + (h / 2) * k1);
        const k3 = rate(at + h / 2, theta + (h / 2) * k2);
        const k4 = rate(at + h, theta + h * k3);
        theta += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      }
      end = [s.to[0] - offset * Math.cos(theta), s.to[1] - offset * Math.sin(theta)];
      from = s.to;
    }
    return { end, theta };
  }

  it('agrees on lines and arcs of every tightness, from any heading', () => {
    for (const radius of [0.05, 0.2, 0.25, 0.3, 1, 30]) {
      for (const sweep of [0.3, 2, -4, 6]) {
        for (const heading of [0, 1, 2, 3, -2.5]) {
          const arc = openPath(
            [0, 0],
            [
              { kind: 'line', to: [0.3, 0.1] },
              arcTo([0.3 + 2 * radius * Math.sin(sweep / 2), 0.1], sweep),
              { kind: 'line', to: [0.5, 0.7] },
            ],
          );
          const mine = dragged(arc, d, heading);
          const rk = integrate(arc, d, heading, d / 200);
          expect(mine.x).toBeCloseTo(rk.end[0], 7);
          expect(mine.y).toBeCloseTo(rk.end[1], 7);
        }
      }
    }
  });
});
