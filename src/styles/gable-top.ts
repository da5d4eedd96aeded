import { defineStyle } from '../contracts.js';
import { circle } from '../geom/index.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { type NetBuilder, newNet } from './build.js';
import { GABLED_PARAMS, type Gabled, gabled } from './gabled.js';
import type { Gusset } from './gusset.js';
import { along, type Corner3, type Point3, type Solid, toward } from './solid.js';

/** Paper left round a ribbon hole, mm. */
const WEB = 2;
/** No ribbon goes through less, mm. */
const LEAST_HOLE = 1.5;
/** From the ridge to the middle of the outer of the four layers that stand together there. */
const LAYERS = 1.5;

/**
 * Fins stand on the roof panels and, between them, on the gussets; a ribbon through all of them closes
 * the box. On a square box the two gussets meet in the middle. The roof runs along the longer side.
 */
export const gableTop = defineStyle({
  id: 'gable-top',
  summary: 'Carton with a milk-carton roof, closed by a ribbon through its fin',
  tags: ['gable top', 'gusset', 'milk carton', 'ECMA group D?'],
  example: { length: 60, width: 60, height: 70 },
  room: { lies: false },
  params: {
    fin: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 60,
      help: 'Height of the fin over the ridge; auto is 14 mm, less on a small box.',
    },
    hole: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 15,
      help: 'Diameter of the two ribbon holes in the fin; auto is 4 mm where it fits, 0 is none.',
    },
    ...GABLED_PARAMS,
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const short = Math.min(length, width);
    const fin = auto(values.fin, Math.max(6, Math.min(14, 0.25 * short)), short);
    atMost('fin', fin, short, 'the shorter side', 'make the fin lower or the box wider');
    const aside = short / 4;
    const net = newNet('box', 'Gable-top carton', t);
    const box = gabled(net, {
      ...values,
      length,
      width,
      height,
      t,
      layers: LAYERS,
      trim: 0,
    });
    const hole = holeSize();
    checkReach(box.left);
    checkReach(box.right);
    fins(net, box, { fin, hole, aside, t });
    return [net.done(box.space.up())];

    /** In thick paper the gussets end below the ridge, and their fins begin there: they are to reach
     *  past it, and round the holes. */
    function checkReach({ feet: [foot], tip }: Gusset): void {
      const below = foot[2] - tip[2];
      const level = Math.hypot(foot[0] - tip[0], foot[1] - tip[1]);
      const slope = below / level;
      const stretched = Math.hypot(1, slope);
      const round = (slope * aside + hole / 2 + WEB) / (stretched - 1 / 2);
      atMost(
        'fin',
        fin,
        slope > 0 ? (level - t - WEB) / slope : short,
        'or the gussets’ fins run to a point',
        'make the fin lower, the roof steeper or take thinner paper',
      );
      atLeast(
        'fin',
        fin,
        Math.max(below / stretched, hole > 0 ? round : 0),
        'or the gussets end below it',
        'make the fin higher, the roof steeper or take thinner paper',
      );
    }

    /** In thick paper a gusset's fin is tilted, and its hole comes nearer to its edge in the flat. */
    function besideHole({ feet: [foot], tip }: Gusset): number {
      const level = Math.hypot(foot[0] - tip[0], foot[1] - tip[1]);
      const tilt = Math.atan2(foot[2] - tip[2], level);
      const along = (aside * level) / Math.abs(foot[0] - tip[0]);
      return along * Math.cos(tilt) - (fin / 2) * Math.sin(tilt);
    }

    function holeSize(): number {
      const beside = Math.min(besideHole(box.left), besideHole(box.right));
      const most = Math.min(fin - 4 * WEB, short / 2 - 4 * WEB, 2 * (beside - WEB));
      const chosen = Math.min(4, most);
      const hole = auto(values.hole, chosen < LEAST_HOLE ? 0 : chosen);
      if (hole === 0) return 0;
      return atMost(
        'hole',
        hole,
        most,
        'or the fin tears',
        'make the hole smaller or the fin higher',
      );
    }
  },
});

interface Fins {
  readonly fin: number;
  readonly hole: number;
  readonly t: number;
  /** Of the holes, from the ends of the ridge. */
  readonly aside: number;
}

/** Slits between the fins let thick paper fold: the gussets' end a little below the ridge. */
function fins(net: NetBuilder, box: Gabled, { fin, hole, aside, t }: Fins): void {
  const { space, roofs, from, to, over } = box;
  const ridge = box.left.feet[0][2];
  const marks = hole > 0 ? [from + aside, to - aside] : [];

  /** Upright on the upper edge of a panel, from a to b as seen from the inside. */
  const upright = (on: Solid, id: string, a: Point3, b: Point3): Solid => {
    const level = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const tilt = Math.atan2(b[2] - a[2], level);
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    const up: Point3 = [(-s * (b[0] - a[0])) / level, (-s * (b[1] - a[1])) / level, c];
    const run = toward(a, b);
    // At the tip, which is lower, two flaps stand beside each other: they give way to one another.
    const lean = fin * Math.abs(Math.tan(tilt)) + t;
    const corners: Corner3[] = [
      { at: a, side: 'low' },
      { at: b, side: 'right' },
      { at: along(along(b, up, fin), run, tilt < 0 ? -lean : 0), side: 'high' },
      { at: along(along(a, up, fin), run, tilt > 0 ? lean : 0), side: 'left' },
    ];
    const holes = marks.flatMap(x => {
      const share = (x - a[0]) / (b[0] - a[0]);
      if (!(share > 0 && share < 1)) return [];
      const [d, e] = [share * level, ridge + fin / 2 - a[2]];
      return [circle([d * c + e * s, e * c - d * s], hole / 2)];
    });
    return space.fold(on, 'high', id, 'flap', corners, 'low', shape => ({ ...shape, holes }));
  };
  const at = (x: number, y: number): Point3 => [x, y, ridge];
  const front = upright(roofs.front, 'front-fin', at(to, box.frontTop), at(from, box.frontTop));
  const back = upright(roofs.back, 'back-fin', at(over, box.backTop), at(to, box.backTop));
  const between = ({ halves, feet, tip }: Gusset, name: string, fins: readonly Solid[]) => {
    const made = [
      upright(halves[0], `${name}-fin-left`, feet[0], tip),
      upright(halves[1], `${name}-fin-right`, tip, feet[1]),
    ];
    made.forEach((own, i) => {
      const plane = fins[i] === front ? box.frontTop : box.backTop;
      net.hook(own.face.side('high'), fins[i]!.face, Math.abs(tip[1] - plane));
    });
  };
  between(box.left, 'left', [front, back]);
  between(box.right, 'right', [back, front]);
  if (hole > 0) net.tie(['front-fin', 'back-fin']);
}
