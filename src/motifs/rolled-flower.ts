/** A flower that is cut as a spiral and rolled up from its outer end. */
import { defineMotif } from '../contracts.js';
import { arcTo, closedPath, line, openPath, polar } from '../geom/index.js';
import type { Point } from '../model.js';
import { ParamError } from '../params.js';
import { figure } from './figure.js';
import { layer, sizeParam } from './layers.js';

/** A strip narrower than this does not stay rolled, mm (common practice, no source). */
const LEAST_STRIP_MM = 4;
/** Radius of the disc in the middle, which the roll is glued on, as a part of the flower's. */
const MIDDLE = 0.24;
/** A plain edge is made of arcs of this many to a turn. */
const PLAIN = 24;

export const rolledFlower = defineMotif({
  id: 'rolled-flower',
  family: 'flowers',
  summary: 'a spiral that is rolled up from outside and glued on its middle: a rose',
  params: {
    size: { ...sizeParam(80), least: 40 },
    turns: { kind: 'count', default: 4, least: 2, most: 7, help: 'turns of the spiral' },
    edge: {
      kind: 'choice',
      default: 'scalloped',
      choices: ['scalloped', 'plain'],
      help: 'petals along the edge, or none',
    },
    petals: { kind: 'count', default: 8, least: 5, most: 14, help: 'petals to a turn' },
  },
  build({ size, turns, edge, petals }) {
    const strip = ((1 - MIDDLE) * size) / 2 / turns;
    if (!(strip >= LEAST_STRIP_MM)) {
      const most = Math.floor(((1 - MIDDLE) * size) / 2 / LEAST_STRIP_MM);
      throw new ParamError(
        'turns',
        turns,
        `at most ${most} for a flower of ${size} mm: the strip is ${LEAST_STRIP_MM} mm wide then`,
        'take fewer or make the flower larger',
      );
    }
    const each = edge === 'plain' ? PLAIN : petals;
    const sweep = edge === 'plain' ? (2 * Math.PI) / each : 1.25 + (2 * Math.PI) / each;
    const at = (i: number): Point =>
      polar(1 - ((1 - MIDDLE) * i) / each / turns, 1.1 + (i * 2 * Math.PI) / each);
    const arcs = (from: number, to: number) =>
      Array.from({ length: to - from }, (_, k) => arcTo(at(from + k + 1), sweep));
    // The first turn is the outline; the others part the strip from the next one with one cut.
    const outline = closedPath(at(0), [...arcs(0, each), line(at(0))]);
    const slit = openPath(at(each), arcs(each, each * turns));
    return figure([layer('front', outline, { strokes: [{ operation: 'cut', path: slit }] })], size);
  },
});
