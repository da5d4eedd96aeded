/** Ombré: one colour into another, in steps. */
import { definePattern } from '../../contracts.js';
import { closedPath, cubic, line, rectangle } from '../../geom/index.js';
import type { Bounds, Fill, Path, Point, Segment } from '../../model.js';
import { coats } from './fills.js';
import { inkOf, mixed } from './inks.js';
import { type Painted, radians, shapeOf } from './repeats.js';

/** The colours of a run through all of `stops`. */
function shadeOf(stops: readonly string[], share: number): string {
  const at = share * (stops.length - 1);
  const n = Math.min(stops.length - 2, Math.floor(at));
  return mixed(stops[n]!, stops[n + 1]!, at - n);
}

/** All of an area above a level whose edge waves as wet dye does on paper. */
function aboveWave(area: Bounds, level: number, wave: number, rise: number, lag: number): Path {
  if (rise === 0) {
    return rectangle(area.minX, level, area.maxX - area.minX, area.maxY + rise - level);
  }
  const k = (2 * Math.PI) / wave;
  const y = (x: number) =>
    level + rise * (0.7 * Math.sin(k * x + lag) + 0.3 * Math.sin(2 * k * x - lag));
  const slope = (x: number) =>
    rise * k * (0.7 * Math.cos(k * x + lag) + 0.6 * Math.cos(2 * k * x - lag));
  const count = Math.ceil(((area.maxX - area.minX) / wave) * 10);
  const third = (area.maxX - area.minX) / count / 3;
  const x = (i: number) => area.minX + 3 * third * i;
  const edge = Array.from({ length: count }, (_, i): Segment => {
    const [a, b] = [x(i), x(i + 1)];
    return cubic(
      [a + third, y(a) + third * slope(a)],
      [b - third, y(b) - third * slope(b)],
      [b, y(b)],
    );
  });
  const top = area.maxY + rise;
  const start: Point = [area.minX, y(area.minX)];
  const end: Point = [x(count), top];
  return closedPath(start, [...edge, line(end), line([area.minX, top])]);
}

export const ombre = definePattern({
  id: 'ombre',
  summary: 'one colour into the next, from edge to edge, smoothly or in dipped steps',
  params: {
    steps: { kind: 'count', default: 9, least: 3, most: 80, help: 'shades; 60 look smooth' },
    through: {
      kind: 'choice',
      default: 'first',
      choices: ['first', 'all'],
      help: 'from the ground to the first ink, or on through all inks',
    },
    rise: {
      kind: 'length',
      default: 2.2,
      least: 0,
      most: 20,
      help: 'how far the edges of the shades wave; 0 is straight',
    },
    wave: { kind: 'length', default: 55, least: 10, most: 300, help: 'from crest to crest' },
    angle: {
      kind: 'angleDeg',
      default: 90,
      least: -180,
      most: 180,
      help: 'direction in which it deepens: 90 is upwards',
    },
  },
  build({ steps, through, rise, wave, angle }, area, palette, random): Fill[] {
    const inks = through === 'all' ? palette.length - 1 : 1;
    const stops = [palette[0]!, ...Array.from({ length: inks }, (_, n) => inkOf(palette, n))];
    const lags = Array.from({ length: steps }, () => 2 * Math.PI * random());
    // From the ground alone to the full ink; each shade lies over the one before, so no seam shows.
    return coats(area, radians(angle - 90), turned => {
      const height = turned.maxY - turned.minY;
      return Array.from({ length: steps - 1 }, (_, i): Painted[] => {
        const n = i + 1;
        const level = turned.minY + (height * n) / steps;
        const colour = shadeOf(stops, n / (steps - 1));
        return [[colour, shapeOf(aboveWave(turned, level, wave, rise, lags[n]!))]];
      });
    });
  },
});
