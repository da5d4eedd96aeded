/** Dotted papers. */
import { definePattern } from '../../contracts.js';
import { circle } from '../../geom/index.js';
import type { Bounds, Point, Region } from '../../model.js';
import { ParamError } from '../../params.js';
import { fillsByInk } from './fills.js';
import { inkOf } from './inks.js';

/** Points of a staggered lattice that reach `margin` beyond an area: rows `spacing` · √3/2 apart,
 *  every second row moved by half a spacing, so each point has six neighbours equally far. */
export function staggered(area: Bounds, spacing: number, margin: number, from: Point): Point[] {
  const row = (spacing * Math.sqrt(3)) / 2;
  const points: Point[] = [];
  const first = Math.ceil((area.minY - margin - from[1]) / row);
  const last = Math.floor((area.maxY + margin - from[1]) / row);
  for (let j = first; j <= last; j++) {
    const x0 = from[0] + (j % 2 === 0 ? 0 : spacing / 2);
    const lo = Math.ceil((area.minX - margin - x0) / spacing);
    const hi = Math.floor((area.maxX + margin - x0) / spacing);
    for (let i = lo; i <= hi; i++) points.push([x0 + i * spacing, from[1] + j * row]);
  }
  return points;
}

const dot = (at: Point, diameter: number): Region => ({
  outer: circle(at, diameter / 2),
  holes: [],
});

export const dots = definePattern({
  id: 'dots',
  summary: 'staggered dots, with pin dots between them',
  params: {
    diameter: { kind: 'length', default: 5, least: 0.8, most: 40, help: 'of a dot' },
    spacing: { kind: 'length', default: 11, least: 2, most: 80, help: 'from middle to middle' },
    pins: {
      kind: 'length',
      default: 1.4,
      least: 0,
      most: 10,
      help: 'diameter of the pin dots in the gaps; 0 leaves them out',
    },
    mix: {
      kind: 'flag',
      default: false,
      help: 'dots in all inks by chance; without it, dots in the first and pins in the second',
    },
  },
  build({ diameter, spacing, pins, mix }, area, palette, random) {
    if (!(diameter <= spacing * 0.95)) {
      throw new ParamError(
        'diameter',
        diameter,
        `at most ${(spacing * 0.95).toFixed(2)} mm for dots ${spacing} mm apart`,
        'make the dots smaller or the spacing wider',
      );
    }
    // A pin dot sits where three dots are equally far, spacing / √3 from each.
    const free = (2 * spacing) / Math.sqrt(3) - diameter;
    if (!(pins <= free * 0.9)) {
      throw new ParamError(
        'pins',
        pins,
        `at most ${(free * 0.9).toFixed(2)} mm in the gaps there are`,
        'make the pin dots smaller, or 0 to leave them out',
      );
    }
    const from: Point = [random() * spacing, random() * spacing];
    const painted: [string, Region][] = staggered(area, spacing, diameter / 2, from).map(p => [
      inkOf(palette, mix ? Math.floor(random() * (palette.length - 1)) : 0),
      dot(p, diameter),
    ]);
    if (pins > 0) {
      const gap: Point = [from[0], from[1] + spacing / Math.sqrt(3)];
      const ink = inkOf(palette, 1);
      for (const p of staggered(area, spacing, pins / 2, gap)) painted.push([ink, dot(p, pins)]);
    }
    return fillsByInk(painted);
  },
});
