import { defineStyle } from '../contracts.js';
import { arcTo, openPath, rotation } from '../geom/index.js';
import type { Inside, Path } from '../model.js';
import { atLeast, atMost, auto, checkedSize } from './bounds.js';
import { newNet } from './build.js';
import { type Graph, graphPath, loopOf, straight } from './curves.js';
import { flap, moveShape, type Shape } from './shapes.js';

/** A notch leaves a flap stiff enough to be snapped in over the others: of the largest that leaves paper
 *  round it this share. At 0.75 no way was found for the deepest flaps of round pillows in thin paper. */
const MOST_NOTCH = 0.7;
/** Paper left beside and below a notch, mm. */
const WEB = 3;
/** A swivelling blade turns in no less than twice its offset, usually 0.25 mm (common practice, no source):
 *  between a flap's end and the side crease so much is cut out at the least, mm. */
const LEAST_NOTCH = 0.5;
/** A flatter one has end creases that hardly curve. */
const LEAST_HEIGHT = 0.01;
/** A higher pillow has side creases too blunt to hold it shut. */
const MOST_HEIGHT = 0.75;

/**
 * Two panels bent to circular arcs, closed at each end by two curved flaps. Each end crease is the
 * unrolled section of its cylinder by a plane at 45°, and the flap beyond it is the mirrored
 * cylinder: it stands upright, and opposite flaps lie flat on one another. The front's flaps close
 * last; they and the glue flap are one thickness clear of what they lie on.
 */
export const pillow = defineStyle({
  id: 'pillow',
  summary: 'Pillow with curved creases; measured at its middle',
  tags: ['pillow', 'tube', 'curved crease', 'ECMA group D?'],
  example: { length: 90, width: 70, height: 28 },
  room: { lies: false, insideFor: roundBlock },
  params: {
    glue: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 60,
      help: 'Width of the glue flap; auto is 12 mm, and never more than a third of a panel.',
    },
    cover: {
      kind: 'number',
      default: 0.85,
      least: 0.4,
      most: 0.95,
      help: 'How far each end flap reaches past the middle of the opening, as a share of the way.',
    },
    notch: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 40,
      help: 'Radius of the thumb notch in the front flaps; auto is 8 mm where it fits, 0 is none.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    atMost(
      'height',
      height,
      MOST_HEIGHT * width,
      'three quarters of the width, or the sides have no crease to hold it shut',
      'make the pillow wider or less high',
    );
    atLeast(
      'height',
      height,
      LEAST_HEIGHT * width,
      'a hundredth of the width, or its creases are too straight to hold it shut',
      'make the pillow higher or less wide',
    );
    atLeast(
      'height',
      height,
      2 * t,
      'or its papers fill it',
      'make the pillow higher or take thinner paper',
    );
    // The back, from side crease P to Q′; the glue flap lies one thickness inside it and is hinged
    // to the front at Q. So the front's chord is a little shorter, and turned by `tilt`.
    const back = lens(width + t, (height + t) / 2);
    const inX = width + t - t * Math.sin(back.half);
    const inY = t * Math.cos(back.half);
    const tilt = Math.atan2(inY, inX);
    const front = lens(Math.hypot(inX, inY), (height + t - inY) / 2);
    // Opposite flaps lie a thickness apart even where they are steepest.
    const over = t / Math.cos(Math.max(back.half, front.half));
    // The glue flap and the front's edge beside it stand a thickness inside the back's edge: as far
    // along the back as the flaps of the back must keep clear of them. What is cut out between a flap
    // and the side crease is as wide; paper without thickness has nothing to clear, and no notch.
    const inset = t > 0 ? Math.max(t * Math.tan(back.half), LEAST_NOTCH) : 0;
    const tall = length + t + 2 * back.rise;
    const open = back.half + front.half;

    const glueMost = back.girth / 3;
    const glue = auto(values.glue, 12, glueMost);
    atMost('glue', glue, glueMost, 'a third of a panel', 'make the glue flap smaller');
    // The inner flaps fold in past the glue flap: its ends lean away from them.
    const mitre = Math.atan(Math.sin(back.half));
    // The inner flaps stand on the end creases. Where the back is steep, what lies a thickness inside it
    // meets them sooner.
    const glueInset = t * Math.max(2, 1 + Math.sin(back.half) * Math.tan(back.half));
    const glueFoot = tall - 2 * glueInset;
    atLeast(
      'length',
      glueFoot,
      2 * glue * Math.tan(mitre) + WEB,
      'or the glue flap is cut to a point',
      'make the pillow longer or the glue flap smaller',
    );
    const mostNotch = MOST_NOTCH * largestNotch(front, values.cover, inset);
    const notch = auto(values.notch, 8, Math.min(mostNotch, front.girth / 6));
    if (notch > 0) {
      atMost('notch', notch, mostNotch, 'or the flap falls apart', 'make the notch smaller');
    }

    const net = newNet('box', 'Pillow box', t);
    const body = net.root('front', 'wall', bodyShape(front, tall + 2 * over, inset));
    const lid = net.fold(
      body.side('right'),
      'back',
      'wall',
      onItsSide(bodyShape(back, tall, inset)),
      {
        inset: over,
        angle: Math.PI - open - tilt,
      },
    );
    const tab = net.fold(
      body.side('left'),
      'glue-flap',
      'glue-flap',
      w => ({
        ...flap(w, glue, { mitre }),
        bend: {
          from: [0, 0],
          across: [0, 1],
          stretches: [{ length: glue, turn: glue / (back.radius - t) }],
        },
      }),
      { inset: over + glueInset, angle: Math.PI - open + tilt },
    );
    net.glue(tab, lid);
    for (const end of ['foot', 'head'] as const) {
      const name = end === 'foot' ? 'bottom' : 'top';
      net.fold(body.side(end), `front-${name}`, 'flap', endFlap(front, values.cover, notch, inset));
      const backEnd = end === 'foot' ? 'right' : 'left';
      net.fold(lid.side(backEnd), `back-${name}`, 'flap', endFlap(back, values.cover, 0, inset));
    }
    return [net.done([0, 0, -1])];
  },
});

interface Lens {
  readonly radius: number;
  /** Half of the angle of the arc. */
  readonly half: number;
  /** Sagitta of the arc. */
  readonly rise: number;
  /** Length of the arc: the panel's width in the flat. */
  readonly girth: number;
}

/** The arc over a chord. */
function lens(chord: number, rise: number): Lens {
  const radius = (chord * chord) / (8 * rise) + rise / 2;
  const half = 2 * Math.atan2(2 * rise, chord);
  return { radius, half, rise, girth: 2 * radius * half };
}

/** Rises of the lens over a block that are tried, in steps of its half height. */
const RISES = Array.from({ length: 80 }, (_, i) => 1 + (i + 1) / 20);
/** What a treat needs beyond its own size, where the paper is thick and the flaps lean, mm. */
const AROUND = 0.5;

/** The pillow round a block: the lens of least paper through the four edges along its length. */
function roundBlock({ length, width, height }: Inside): Inside | undefined {
  const [w, h] = [(width + AROUND) / 2, (height + AROUND) / 2];
  const pillows = RISES.map(k => {
    const rise = h * k;
    const radius = (w * w + (rise - h) ** 2) / (2 * (rise - h));
    const chord = 2 * Math.sqrt(Math.max(0, 2 * radius * rise - rise * rise));
    const { girth } = lens(chord, rise);
    return { chord, rise, sound: rise <= radius, paper: girth * (length + 4 * rise) };
  }).filter(p => p.sound && 2 * p.rise <= MOST_HEIGHT * p.chord);
  if (pillows.length === 0) return undefined;
  const { chord, rise } = pillows.reduce((a, b) => (b.paper < a.paper ? b : a));
  return { length: length + AROUND, width: chord, height: 2 * rise };
}

/** How far the end crease lies from the line through its ends: the height of the arc over its
 *  chord, for a plane at 45° (z = tan 45° · (R cos(x/R) − R cos ψ)). */
function crease({ radius, half, girth }: Lens, k: number, from: number): Graph {
  const angle = (x: number) => (x - girth / 2) / radius;
  return {
    at: x => from + k * radius * (Math.cos(angle(x)) - Math.cos(half)),
    slope: x => -k * Math.sin(angle(x)),
    fourth: Math.abs(k) / radius ** 3,
  };
}

/** A body panel, standing on one of its curved ends, whose creases begin `inset` from its sides. */
function bodyShape(lens: Lens, tall: number, inset: number): Shape {
  const { girth, half } = lens;
  const end = (at: Graph, from: number, to: number) => {
    const step = Math.sign(to - from) * inset;
    const parts = [from, from + step, to - step, to];
    return [0, 1, 2].map(i => graphPath(at, parts[i]!, parts[i + 1]!));
  };
  const feet = end(crease(lens, 1, 0), 0, girth);
  const heads = end(crease(lens, -1, tall), girth, 0);
  const right = straight([girth, 0], [girth, tall]);
  const left = straight([0, tall], [0, 0]);
  return {
    outline: loopOf(...feet, right, ...heads, left),
    sides: { foot: feet[1]!, right, head: heads[1]!, left },
    bend: { from: [0, 0], across: [1, 0], stretches: [{ length: girth, turn: 2 * half }] },
  };
}

/** Turned so that its left side is its foot. */
function onItsSide(shape: Shape): Shape {
  const { left, foot, right, head } = shape.sides as Record<string, Path>;
  const sides = { foot: left!, right: foot!, head: right!, left: head! };
  return moveShape({ ...shape, sides }, rotation(Math.PI / 2));
}

/** An end flap's crease, and its edge, which bulges `cover` times as far the other way. */
function endGraphs(lens: Lens, cover: number, inset: number) {
  const fold = crease(lens, -1, 0);
  return { fold, edge: crease(lens, cover, cover * fold.at(inset)) };
}

/** The largest notch in the middle of an end flap's edge that keeps away from its crease and its ends,
 *  by halving: a larger one comes nearer everywhere. 0 where none fits. */
function largestNotch(lens: Lens, cover: number, inset: number): number {
  const { fold, edge } = endGraphs(lens, cover, inset);
  const middle = lens.girth / 2;
  const clear = (r: number) =>
    Array.from({ length: 9 }, (_, i) => (Math.PI * i) / 16).every(angle => {
      const x = middle + r * Math.cos(angle);
      return edge.at(middle + r) - r * Math.sin(angle) - fold.at(x) >= WEB;
    });
  let [fits, most] = [0, middle - inset - WEB];
  for (let i = 0; i < 40; i++) {
    const r = (fits + most) / 2;
    if (clear(r)) fits = r;
    else most = r;
  }
  return Math.max(0, fits);
}

/** From the crease, which dips into the body, to its edge. It is set in at its ends, so that it clears
 *  the side creases. */
function endFlap(lens: Lens, cover: number, notch: number, inset: number): Shape {
  const { girth, half } = lens;
  const { fold, edge } = endGraphs(lens, cover, inset);
  const foot = graphPath(fold, inset, girth - inset);
  const middle = girth / 2;
  const [right, left] = [girth - inset, inset];
  const heads =
    notch > 0
      ? [
          graphPath(edge, right, middle + notch),
          openPath(
            [middle + notch, edge.at(middle + notch)],
            [arcTo([middle - notch, edge.at(middle - notch)], -Math.PI)],
          ),
          graphPath(edge, middle - notch, left),
        ]
      : [graphPath(edge, right, left)];
  return {
    outline: loopOf(foot, ...heads),
    sides: { foot },
    bend: { from: [0, 0], across: [1, 0], stretches: [{ length: girth, turn: -2 * half }] },
  };
}
