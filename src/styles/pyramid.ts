import { defineStyle } from '../contracts.js';
import { circle } from '../geom/index.js';
import { atLeast, atMost, auto } from './bounds.js';
import { newNet } from './build.js';
import { checkedRound, facing, polygonAt, SIDES_PARAM, turnOf } from './ngon.js';
import { along, type Corner3, inSpace, type Point3 } from './solid.js';

/** Paper left round a ribbon hole, mm. */
const WEB = 2;
/** No ribbon goes through less, mm. */
const LEAST_HOLE = 1.5;
/** The narrowest foot of a face, mm. */
const LEAST_FOOT = 2;

/**
 * Faces on a floor of equal sides; a ribbon through a hole in each holds them where they meet. Along
 * the seams the papers' inner faces touch: so each is set back from where the mid-surfaces meet by
 * half a thickness over the tangent of half the angle between them.
 */
export const pyramid = defineStyle({
  id: 'pyramid',
  summary: 'Pyramid of 3 to 12 sides, tied at its tip with a ribbon; opens out flat',
  tags: ['pyramid', 'ribbon tie', 'ECMA group D?'],
  example: { length: 70, width: 70, height: 80 },
  plan: 'round',
  params: {
    sides: { ...SIDES_PARAM, default: 4 },
    hole: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 15,
      help: 'Diameter of the ribbon hole in each tip; auto is 4 mm where it fits, 0 is none.',
    },
  },
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const { sides } = values;
    const slope = Math.atan2(height, diameter / 2);
    // Half a thickness outside the clear space; the floor half a thickness below it.
    const radius = diameter / 2 + t / 2 / Math.tan(slope / 2);
    const slant = radius / Math.cos(slope);
    const half = radius * Math.tan(turnOf(sides) / 2);
    const tip = Math.atan2(half, slant);
    // Half the angle between two faces, from the normals of their planes.
    const seam = Math.PI / 2 - Math.asin(Math.sin(slope) * Math.sin(turnOf(sides) / 2));
    const back = t / 2 / Math.tan(seam);
    const foot = half - back / Math.cos(tip);
    const top = slant - back / Math.sin(tip);
    atLeast(
      'length',
      2 * foot,
      LEAST_FOOT,
      'the narrowest foot of a face',
      'make the pyramid wider, its sides fewer or the paper thinner',
    );
    const hole = holeSize();

    const net = newNet('box', 'Pyramid box', t);
    const space = inSpace(net);
    const z = -t / 2;
    const corners = polygonAt(sides, () => radius, z);
    const floor = space.root(
      'floor',
      'base',
      corners.map((at, k) => ({ at, side: String(k) })),
      String(sides >> 1),
    );
    const faces = corners.map((_, k) => {
      const f = facing(sides, k);
      const middle: Point3 = [radius * Math.cos(f), radius * Math.sin(f), z];
      const right: Point3 = [Math.sin(f), -Math.cos(f), 0];
      const up: Point3 = [
        -Math.cos(slope) * Math.cos(f),
        -Math.cos(slope) * Math.sin(f),
        Math.sin(slope),
      ];
      const face: Corner3[] = [
        { at: along(middle, right, -foot), side: 'low' },
        { at: along(middle, right, foot), side: 'right' },
        { at: along(middle, up, top), side: 'left', round: hole > 0 ? hole / 2 + WEB : 0 },
      ];
      return space.fold(floor, String(k), `face-${k + 1}`, 'wall', face, 'low', shape => ({
        ...shape,
        // In the middle of the rounded tip.
        holes: hole > 0 ? [circle([foot, top - (hole / 2 + WEB) / Math.sin(tip)], hole / 2)] : [],
      }));
    });
    faces.forEach((face, k) => {
      const before = faces[(k + sides - 1) % sides]!;
      net.meet(face.face.side('right'), before.face.side('left'), t * Math.cos(seam));
    });
    if (hole > 0) net.tie(faces.map((_, k) => `face-${k + 1}`));
    return [net.done()];

    function holeSize(): number {
      // No further down than half of the face.
      const most = 2 * ((top / 2) * Math.sin(tip) - WEB);
      const chosen = Math.min(4, most);
      const hole = auto(values.hole, chosen < LEAST_HOLE ? 0 : chosen);
      if (hole === 0) return 0;
      return atMost(
        'hole',
        hole,
        most,
        'or it lies below half of the face',
        'make the hole smaller or the pyramid larger',
      );
    }
  },
});
