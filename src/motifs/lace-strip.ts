/** A strip of lace for a border. */
import { defineMotif } from '../contracts.js';
import { circle, clockwise, polar, rectangle, roundedPolygon } from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { layer } from './layers.js';
import { ellipse } from './shapes.js';
import { LACE, leastRepeat, measure, stripOutline, stripParams } from './strips.js';

/** Lace in each scallop, as parts of a repeat: three petals in a fan and a hole at its foot. */
const PETAL = { away: 0.275, long: 0.2, wide: 0.13, fan: (56 * Math.PI) / 180 };
const FOOT = { below: 0.1, wide: 0.13 };
/** Between a petal and the edge there is this part of a repeat, the narrowest place of all. */
const LEAST_LACE_MM = LEAST_WIDTH_MM / (0.5 - PETAL.away - PETAL.long / 2);

/** Slots to thread a ribbon through: how wide each is, and how far from its partner, mm. */
const SLOT = { wide: 1.4, gap: 3.4 };

export const laceStrip = defineMotif({
  id: 'lace-strip',
  family: 'strips',
  summary: 'a strip of lace for a border, with slots for a ribbon if you like',
  params: {
    ...stripParams(120, 26, 12),
    size: { ...stripParams(120, 0, 0).size, least: 60 },
    height: { ...stripParams(0, 26, 0).height, least: 18 },
    repeats: { ...stripParams(0, 0, 12).repeats, most: 24 },
    edges: { ...stripParams(0, 0, 0).edges, default: 'both' },
    ribbon: {
      kind: 'length',
      default: 6,
      least: 0,
      most: 12,
      help: 'width of a ribbon to thread through slots in the middle; 0 is none',
    },
  },
  build(values): readonly Layer[] {
    leastRepeat(values, LEAST_LACE_MM);
    const m = measure(values, LACE);
    const { size, repeats, ribbon } = values;
    const middles = Array.from({ length: repeats }, (_, i) => (i + 0.5) * m.pitch - size / 2);
    const fans = [
      ...middles.flatMap(x => fan([x, m.top], m.pitch, 1)),
      ...(m.both ? middles.flatMap(x => fan([x, m.bottom], m.pitch, -1)) : []),
    ];
    const foot = (FOOT.below + FOOT.wide / 2) * m.pitch;
    const room = m.top - foot - (m.both ? m.bottom + foot : m.bottom) - 3 * LEAST_WIDTH_MM;
    if (!(ribbon <= room) || (ribbon > 0 && ribbon < 2)) {
      throw new ParamError(
        'ribbon',
        ribbon,
        room < 2 ? '0: there is no room for slots' : `0, or from 2 to ${room.toFixed(2)} mm here`,
        'make the strip higher or the ribbon narrower, or leave it out',
      );
    }
    const y = ((m.both ? m.bottom + foot : m.bottom) + m.top - foot) / 2;
    const slots = ribbon > 0 ? middles.flatMap(x => slotPair(x, y, ribbon)) : [];
    const outline = stripOutline(values, LACE, m);
    return [layer('front', outline, { holes: [...fans, ...slots].map(clockwise) })];
  },
});

/** The holes of one scallop about its foot's middle; `up` is 1 at the top and −1 at the bottom. */
function fan([x, y]: Point, pitch: number, up: 1 | -1): Path[] {
  const petals = [-1, 0, 1].map(i => {
    const angle = up * (Math.PI / 2 + i * PETAL.fan);
    const centre = polar(PETAL.away * pitch, angle, [x, y]);
    return ellipse(centre, (PETAL.long / 2) * pitch, (PETAL.wide / 2) * pitch, angle);
  });
  return [...petals, circle([x, y - up * FOOT.below * pitch], (FOOT.wide / 2) * pitch)];
}

/** Two slots: the ribbon goes down through one and up through the other. */
function slotPair(x: number, y: number, ribbon: number): Path[] {
  return [-1, 1].map(side => {
    const left = x + (side * SLOT.gap) / 2 - SLOT.wide / 2;
    const { start, segments } = rectangle(left, y - ribbon / 2, SLOT.wide, ribbon);
    return roundedPolygon([start, ...segments.slice(0, -1).map(s => s.to)], 0.4);
  });
}
