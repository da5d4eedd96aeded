import { defineStyle } from '../contracts.js';
import type { ParamTable } from '../params.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { type NetBuilder, newNet, SQUARE } from './build.js';
import { checkedRound, polygonAt, type Ring, ring, turnOf } from './ngon.js';
import { arched, flap, type Shape } from './shapes.js';

/** A cone that widens more is a plate (common practice, no source). */
const MOST_LEAN = radians(50);
/** Scores nearer to each other than this tear the paper at the tip, mm (common practice, no source). */
const LEAST_SCORES = 2;
/** The least that is left open at the tip of a rolled cone: paper does not roll tighter, mm. */
const LEAST_TIP = 2;
/** Of the seam's flat, what its glue flap covers at the most. */
const MOST_GLUE = 0.85;
/** A narrower glue flap holds nothing, mm. */
const LEAST_GLUE = 2;
/** A scallop rises by less than half of its width, as a share of it. */
const MOST_SCALLOP = 0.45;
/** What is left of a tuck flap's head, mm. */
const LEFT = 2;
/** A round that stands in the spiral moves away from the seam's inner end: its radius is larger by this
 *  share of the spiral's step, or a little more, than of one in its middle (measured, 12 to 24 flats). */
const SPIRAL = 0.22;
/** A tuck flap leans in by this beside the flats that narrow beside it. */
const MITRE = radians(8);

const PARAMS = {
  sides: {
    kind: 'count',
    default: 16,
    least: 12,
    most: 24,
    help: 'Number of flats: of a rolled cone, what its lid and its scallops go by.',
  },
  wall: {
    kind: 'choice',
    default: 'rolled',
    choices: ['rolled', 'scored'],
    help: 'rolled: curled by hand, no scores; scored: a score between each two flats.',
  },
  top: {
    kind: 'choice',
    default: 'scallop',
    choices: ['scallop', 'lid', 'straight'],
    help: 'The mouth: scalloped, with a lid that tucks in, or straight.',
  },
  tip: {
    kind: 'length',
    default: 'auto',
    least: LEAST_TIP,
    most: 400,
    help: 'Diameter of the opening at the tip; auto is as small as paper or scores allow.',
  },
  scallop: {
    kind: 'length',
    default: 'auto',
    least: 0.5,
    most: 30,
    help: 'How far each scallop rises; auto is a third of its width.',
  },
  glue: {
    kind: 'length',
    default: 'auto',
    least: LEAST_GLUE,
    most: 60,
    help: 'Width of the glue flap at the mouth; auto is three quarters of a flat.',
  },
  tuck: {
    kind: 'length',
    default: 'auto',
    least: 4,
    most: 60,
    help: 'Depth of the lid’s tuck flap; auto is a quarter of the mouth, 15 mm at most.',
  },
  ease: {
    kind: 'length',
    default: 0.75,
    least: 0.2,
    most: 3,
    help: 'How much narrower the tuck flap is than its side of the lid, at each end.',
  },
} as const satisfies ParamTable;

/**
 * A ring of flats from the mouth down to a small opening at the tip. Each stands a little further out
 * than the one before, from the seam's inner end to its outer one, as a strip does that is rolled.
 */
export const cone = defineStyle({
  id: 'cone',
  summary: 'Cone rolled from a sector, scalloped or lidded; measured at its mouth',
  tags: ['cone', 'sector', 'favour cone'],
  example: { length: 56, width: 56, height: 120 },
  plan: 'round',
  params: PARAMS,
  build(spec, values) {
    const { diameter, height, t } = checkedRound(spec);
    const { sides } = values;
    const rolled = values.wall === 'rolled';
    const chord = 2 * Math.tan(turnOf(sides) / 2);
    const tip = openTip();
    const slope = (diameter - tip) / 2 / height;
    const lean = Math.atan(slope);
    const steepest = diameter - 2 * height * Math.tan(MOST_LEAN);
    atLeast(
      'tip',
      tip,
      steepest,
      'or the cone is too wide for its height',
      'make the tip wider or the cone higher',
    );
    const level = t / Math.cos(lean);
    const radius = (tip + level) / 2 - SPIRAL * level;
    const side = chord * (radius + height * slope);
    const lidded = values.top === 'lid';

    const net = newNet('box', 'Cone', t);
    const hinged = sides >> 1;
    const walls = ring(net, {
      sides,
      t,
      lean,
      radius: k => radius + (level * ((k + sides - 1) % sides)) / (sides - 1),
      foot: () => 0,
      head: k => height + (lidded && k === hinged ? t / 2 : 0),
      over: 1,
      soft: rolled,
      flap: glued(),
      name: k => `flat-${k + 1}`,
      change: k => shape => rims(shape, k),
    });
    if (lidded) lid(net, walls, tuckFlap());
    return [net.done(walls.space.up())];

    function openTip(): number {
      const least = rolled ? LEAST_TIP : LEAST_SCORES / (chord / 2);
      const tip = auto(values.tip, least, 0.9 * diameter);
      const advice = 'make the tip wider, the flats fewer or roll the cone';
      atLeast('tip', tip, least, rolled ? 'which paper rolls to' : 'or scores crowd there', advice);
      return atMost(
        'tip',
        tip,
        0.9 * diameter,
        'nine tenths of the mouth',
        'make the tip narrower or the mouth wider',
      );
    }

    function glued() {
      // Square to the paper, the flat that it is glued to begins lower by this than the flap inside it.
      const low = t / 2 + t * Math.sin(lean);
      const tall = height - t / 2 - low;
      const most = Math.min(MOST_GLUE * side, (tall - LEFT) / (2 * Math.tan(radians(15))));
      const glue = auto(values.glue, 0.75 * side, most);
      atLeast(
        'glue',
        glue,
        LEAST_GLUE,
        'or it holds nothing',
        'make the glue flap or the mouth wider',
      );
      atMost(
        'glue',
        glue,
        most,
        'most of a flat and of its height',
        'make the glue flap narrower or the flats fewer',
      );
      // As wide as its flat is everywhere, in proportion.
      const foot = (glue * chord * radius) / side;
      return { low, high: height - t / 2, width: [foot, glue] as const };
    }

    /** A rolled cone's mouth and tip are arcs about the sector's middle. */
    function rims(shape: Shape, k: number): Shape {
      if (values.top === 'scallop') {
        const scallop = auto(values.scallop, side / 3);
        const least = sagitta(side / 2, side / chord / Math.sin(lean));
        atLeast('scallop', scallop, least, 'the arc of the mouth itself', 'let it rise more');
        atMost(
          'scallop',
          scallop,
          MOST_SCALLOP * (side - level),
          'less than half of its width',
          'make the scallops lower or the flats fewer',
        );
        return arched(shape, 'high', scallop);
      }
      if (!rolled || (lidded && k === hinged)) return shape;
      return arched(shape, 'high', sagitta(side / 2, side / chord / Math.sin(lean)));
    }

    function tuckFlap() {
      // A thickness and a half, drawn in over half of the way round, widens the lid's side by this.
      const wider = (1.5 * level) / hinged / Math.sin(turnOf(sides));
      const room = side / 2 - wider - LEFT;
      atMost('ease', values.ease, room, 'or no tuck flap is left', 'make the ease smaller');
      const most = (side - 2 * values.ease - LEFT) / (2 * Math.tan(lean0() + MITRE));
      const tuck = auto(values.tuck, Math.min(15, diameter / 4), Math.min(most, height / 2));
      const advice = 'make the tuck flap less deep or the flats fewer';
      atMost('tuck', tuck, Math.min(most, height / 2), 'or it runs to a point', advice);
      return { tuck, ease: values.ease, mitre: lean0() + MITRE, lean };
    }
    /** By how much a flat narrows on each side. */
    function lean0(): number {
      return Math.atan((chord / 2) * Math.sin(lean));
    }
  },
});

/** By how much an arc about a middle `far` away rises over its chord of twice `half`. */
const sagitta = (half: number, far: number): number => Math.hypot(far, half) - far;

interface LidPlan {
  readonly tuck: number;
  readonly ease: number;
  readonly mitre: number;
  readonly lean: number;
}

/** Hinged opposite the seam; its tuck flap goes in behind the seam's glue flap. */
function lid(
  net: NetBuilder,
  { plan, space, walls, radiusAt }: Ring,
  { tuck, ease, mitre, lean }: LidPlan,
) {
  const { sides, t } = plan;
  const hinged = sides >> 1;
  const z = plan.head(hinged);
  // From the wall it hangs on to the tuck flap's place it draws in evenly, both ways round.
  const [wide, narrow] = [radiusAt(hinged, z), radiusAt(0, z) - (2 * t) / Math.cos(lean)];
  const share = (k: number) =>
    k <= hinged ? (hinged - k) / hinged : (k - hinged) / (sides - hinged);
  const corners = polygonAt(sides, k => wide + (narrow - wide) * share(k), z);
  const wider = (wide - narrow) / hinged / Math.sin(turnOf(sides));
  // As seen from the inside, below, the polygon runs the other way round.
  const seen = corners.map((at, k) => ({ at, side: String((k + sides - 1) % sides) })).reverse();
  const top = space.fold(walls[hinged]!, 'high', 'lid', 'lid', seen, String(hinged));
  const made = net.fold(
    top.face.side('0'),
    'tuck',
    'tuck-flap',
    w => flap(w, tuck, { mitre, soft: 4 }),
    { inset: ease + wider, angle: SQUARE + lean },
  );
  net.tuck(made, walls[0]!.face, 2 * t);
}
