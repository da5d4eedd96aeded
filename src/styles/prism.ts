import { defineStyle } from '../contracts.js';
import type { ParamTable, Values } from '../params.js';
import { atMost, auto } from './bounds.js';
import { newNet } from './build.js';
import {
  checkedRound,
  GLUE_PARAM,
  glueWidth,
  type RingPlan,
  ring,
  SIDES_PARAM,
  turnOf,
} from './ngon.js';
import { NGON_TAB_PARAM, ngonTray, TRAY_OUTSIDE } from './ngon-tray.js';
import { isTucked, TUCK_PARAMS, tuckEnd, tuckHeights, tuckPlan } from './ngon-tuck.js';
import { checkPetals, PETAL_LAYERS, PETAL_PARAMS, petals } from './petals.js';

/** The room a lid needs on each side to slide and still hold (common practice, no source). */
const LEAST_PLAY = 0.25;
const MOST_PLAY = 0.5;

const PARAMS = {
  sides: SIDES_PARAM,
  ends: {
    kind: 'choice',
    default: 'tuck',
    choices: ['tuck', 'petal', 'lid'],
    help: 'tuck: flaps tuck in; petal: petals hold each other; lid: a base with a lid over it.',
  },
  ...GLUE_PARAM,
  ...TUCK_PARAMS,
  ...PETAL_PARAMS,
  lidHeight: {
    kind: 'length',
    default: 'auto',
    least: 5,
    most: 2000,
    help: 'How far a lid reaches down; auto is two fifths of the height, 12 mm at least.',
  },
  play: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 3,
    help: 'Room between base and lid on each side; auto is a paper thickness, 0.25 to 0.5 mm.',
  },
  ...NGON_TAB_PARAM,
} as const satisfies ParamTable;

/** Its inside is read by the round that stands in it: from side to side where they lie opposite. */
export const prism = defineStyle({
  id: 'prism',
  summary: 'Box of 3 to 12 sides: tuck ends, petal ends, or a base with a lid',
  tags: ['tube', 'polygon', 'tuck end', 'telescope', 'ECMA group D?'],
  example: { length: 60, width: 60, height: 50 },
  plan: 'round',
  room: { lies: false },
  params: PARAMS,
  build(spec, values) {
    const size = { ...checkedRound(spec), sides: values.sides };
    if (values.ends === 'lid') return lidded(size, values);
    return [values.ends === 'petal' ? petalled(size, values) : tucked(size, values)];
  },
});

type Given = Values<typeof PARAMS>;
interface Size {
  readonly sides: number;
  readonly diameter: number;
  readonly height: number;
  readonly t: number;
}
const name = (k: number) => `wall-${k + 1}`;
const sideOf = (sides: number, radius: number) => 2 * radius * Math.tan(turnOf(sides) / 2);

function tucked(size: Size, values: Given) {
  const { sides, diameter, height, t } = size;
  const radius = (diameter + t) / 2;
  const side = sideOf(sides, radius);
  const plan = tuckPlan(values, { sides, side, radius: diameter / 2, height, t });
  const net = newNet('box', 'Prism carton', t);
  const { flap, ...walls } = upright(size, values.glue, side);
  // The seam's flap keeps two papers off the closures that fold in past it.
  const ends = tuckHeights(plan, sides, 0, height, t);
  const tube = ring(net, {
    ...walls,
    flap: { ...flap, low: ends.foot + 2 * t, high: ends.head - 2 * t },
    // A thickness further out where a flap lies inside.
    radius: k => radius + (k === 0 || isTucked(sides, k) ? t : 0),
    foot: k => tuckHeights(plan, sides, k, height, t).foot,
    head: k => tuckHeights(plan, sides, k, height, t).head,
  });
  tuckEnd(net, tube, 'top', plan);
  tuckEnd(net, tube, 'bottom', plan);
  return net.done(tube.space.up());
}

function petalled(size: Size, values: Given) {
  const { sides, diameter, height, t } = size;
  checkPetals(sides, diameter, t, values.swirl);
  const radius = (diameter + t) / 2;
  const out = PETAL_LAYERS * t;
  const net = newNet('box', 'Prism with petals', t);
  const tube = ring(net, {
    ...upright(size, values.glue, sideOf(sides, radius)),
    radius: k => radius + (k === 0 ? t : 0),
    foot: () => -out,
    head: () => height + out,
  });
  petals(net, tube, 'top', values.swirl);
  petals(net, tube, 'bottom', values.swirl);
  return net.done(tube.space.up());
}

function upright({ sides, height, t }: Size, glue: Given['glue'], side: number) {
  const flap = { low: t / 2, high: height - t / 2, width: glueWidth(glue, side, height - t) };
  return { sides, t, lean: 0, flap, name } satisfies Partial<RingPlan>;
}

function lidded(size: Size, values: Given) {
  const { sides, diameter, height, t } = size;
  const play = auto(values.play, t > 0 ? Math.min(Math.max(t, LEAST_PLAY), MOST_PLAY) : 0);
  const lidHeight = auto(values.lidHeight, Math.max(0.4 * height, 12), height);
  atMost(
    'lidHeight',
    lidHeight,
    height,
    'the height of the base',
    'make the lid lower, or it stands on the table',
  );
  const base = newNet('base', 'Base', t);
  ngonTray(base, { sides, diameter, height, t }, values.tab);
  const lid = newNet('lid', 'Lid', t);
  const over = diameter + 2 * (TRAY_OUTSIDE * t + play);
  ngonTray(lid, { sides, diameter: over, height: lidHeight, t }, values.tab);
  // A polygon of odd sides is not the same upside down, and the middle of its bounds is not its own.
  const odd = sides % 2 === 1;
  const aside = odd ? ((over - diameter) / 4) * (1 / Math.cos(turnOf(sides) / 2) - 1) : 0;
  const place = {
    at: [0, aside],
    height: height - lidHeight + t / 2,
    turn: odd ? Math.PI : 0,
  } as const;
  // The base stands by the middle of its floor too: its walls do not end alike on both sides.
  return [base.done(undefined, {}), lid.done([0, 0, -1], place)];
}
