/** Flowers in tiers that are cupped and stacked: blossom, daisy, dahlia. Drawn with petals 50 long. */
import { defineMotif } from '../contracts.js';
import {
  circle,
  closedPath,
  corner,
  heading,
  type Knot,
  line,
  openPath,
  openSpline,
  polar,
  rotation,
  transform,
} from '../geom/index.js';
import type { Layer, Path, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { drawn, figure, scored } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { scallopedCircle } from './scallops.js';
import { WEST } from './shapes.js';

/** A petal that points up, of a ring of `count`; all in parts of its length. */
interface Petal {
  /** How far out the petals part. */
  readonly parts: number;
  /** Where it is widest, and how much of its sector it fills there. */
  readonly belly: number;
  readonly fills: number;
  readonly tip: 'round' | 'pointed' | 'notched';
}

/** A ring of equal petals about the origin, one of them up, each `reach` long. */
function petalRing(count: number, petal: Petal, reach: number): Path {
  const half = Math.PI / count;
  const notch = polar(reach * petal.parts, Math.PI / 2 - half);
  const y = reach * petal.belly;
  const x = notch[0] + (y - notch[1]) * Math.tan(half) * petal.fills;
  // The slit between two petals only widens on its way out: a slit that narrows traps paper.
  const side = Math.PI / 2 - Math.atan(Math.tan(half) * petal.fills);
  const bow = 0.7 * (side - Math.PI / 2 + half);
  const out = polar(1, side - bow);
  const on = polar(1, side + bow);
  const tips: Record<Petal['tip'], readonly Knot[]> = {
    round: [heading([0, reach], WEST)],
    pointed: [corner([0, reach], [-x, 1.2 * (reach - y)], [-x, -1.2 * (reach - y)])],
    notched: [
      heading([0.52 * x, reach], WEST),
      corner([0, 0.915 * reach], [-0.9, -1], [-0.9, 1]),
      heading([-0.52 * x, reach], WEST),
    ],
  };
  const one = openSpline([
    corner(notch, 'free', out),
    heading([x, y], on),
    ...tips[petal.tip],
    heading([-x, y], [on[0], -on[1]]),
    corner([-notch[0], notch[1]], [out[0], -out[1]]),
  ]);
  const all = Array.from({ length: count }, (_, i) =>
    transform(one, rotation((2 * Math.PI * i) / count)),
  );
  return closedPath(
    all[0]!.start,
    all.flatMap(p => p.segments),
  );
}

/** The creases that cup a ring of petals: along the middle of each. */
const creases = (count: number, from: number, to: number, turn: number): Stroke[] =>
  Array.from({ length: count }, (_, i) => {
    const a = Math.PI / 2 + turn + (2 * Math.PI * i) / count;
    return scored(openPath(polar(from, a), [line(polar(to, a))]));
  });

/** Rings of petals on each other, the widest behind, each turned by half a petal. `crease` is where on
 *  a petal its crease begins, as a part of it; 0 is no crease. */
function tiersOf(count: number, petal: Petal, reaches: readonly number[], crease: number): Layer[] {
  return reaches.map((reach, i) => {
    const turn = i % 2 === 0 ? 0 : Math.PI / count;
    const strokes = crease > 0 ? creases(count, crease * reach, 0.84 * reach, turn) : [];
    return layer(
      i === 0 ? 'front' : `tier-${i + 1}`,
      transform(petalRing(count, petal, reach), rotation(turn)),
      {
        paper: i === 0 ? 'main' : `tier-${i + 1}`,
        strokes,
        lift: i === 0 ? 0 : 1,
      },
    );
  });
}

/** Throws where the narrowest petal, where it leaves the middle, would tear. `reach` is that of the
 *  smallest ring, the widest being 50. */
function mustHold(size: number, count: number, petal: Petal, reach: number): void {
  const foot = 2 * petal.parts * reach * Math.sin(Math.PI / count);
  // A ring of few petals is narrower than twice their length, so this is on the safe side.
  const least = (LEAST_WIDTH_MM * 100) / foot;
  if (!(size >= least)) {
    throw new ParamError(
      'size',
      size,
      `at least ${least.toFixed(1)} mm with ${count} petals and as many rings`,
      'make it larger, or take fewer petals or rings',
    );
  }
}

const petalsParam = (count: number, least: number, most: number) =>
  ({ kind: 'count', default: count, least, most, help: 'petals in each ring' }) as const;
const ringsParam = (count: number) =>
  ({
    kind: 'count',
    default: count,
    least: 1,
    most: 3,
    help: 'rings of petals on each other: 1 is a single flower, 2 a double one',
  }) as const;
const creaseParam = {
  kind: 'flag',
  default: true,
  help: 'creases along the petals, to cup them by',
} as const;

/** A middle of small discs drawn with the pen, as the seeds lie: by the golden angle. */
function seeds(radius: number, count: number): Stroke[] {
  const golden = Math.PI * (3 - Math.sqrt(5));
  return Array.from({ length: count }, (_, i) =>
    drawn(circle(polar(radius * Math.sqrt((i + 0.5) / count), i * golden), 0.08 * radius)),
  );
}

export const blossom = defineMotif({
  id: 'blossom',
  family: 'flowers',
  summary: 'apple blossom: a few broad petals, round or notched, with stamens drawn',
  params: {
    size: { ...sizeParam(40), least: 16 },
    petals: petalsParam(5, 4, 9),
    rings: ringsParam(1),
    tip: {
      kind: 'choice',
      default: 'notched',
      choices: ['notched', 'round', 'pointed'],
      help: 'how the petals end',
    },
    crease: creaseParam,
  },
  build({ size, petals, rings, tip, crease }) {
    const petal: Petal = {
      parts: 0.36,
      belly: tip === 'notched' ? 0.71 : 0.66,
      fills: 0.8,
      tip: tip as Petal['tip'],
    };
    const reaches = [50, 35, 24].slice(0, rings);
    mustHold(size, petals, petal, reaches.at(-1)!);
    const tiers = tiersOf(petals, petal, reaches, crease ? 0.58 : 0);
    const top = reaches.at(-1)!;
    const turn = rings % 2 === 1 ? 0 : Math.PI / petals;
    // Three to a petal, as far as there is room.
    const each = petals > 6 ? 1 : 3;
    const stamens = Array.from({ length: each * petals }, (_, i): Stroke[] => {
      const a = Math.PI / 2 + turn + (i * 2 * Math.PI) / (each * petals);
      const end = top * (i % each === 0 ? 0.46 : 0.33);
      return [
        drawn(openPath(polar(0.17 * top, a), [line(polar(end, a))])),
        drawn(circle(polar(end + 0.03 * top, a), 0.03 * top)),
      ];
    }).flat();
    const last = tiers.at(-1)!;
    return figure(
      [
        ...tiers.slice(0, -1),
        { ...last, strokes: [...last.strokes, ...stamens] },
        layer('centre', circle([0, 0], 0.15 * top), { paper: 'centre', lift: 1 }),
      ],
      size,
    );
  },
});

export const daisy = defineMotif({
  id: 'daisy',
  family: 'flowers',
  summary: 'a daisy of many slim petals about a seeded middle',
  params: {
    size: { ...sizeParam(40), least: 20 },
    petals: petalsParam(13, 8, 21),
    rings: ringsParam(2),
    crease: { ...creaseParam, default: false },
  },
  build({ size, petals, rings, crease }) {
    const petal: Petal = { parts: 0.34, belly: 0.8, fills: 0.66, tip: 'round' };
    const reaches = [50, 40.5, 32].slice(0, rings);
    mustHold(size, petals, petal, reaches.at(-1)!);
    const middle = 13;
    return figure(
      [
        ...tiersOf(petals, petal, reaches, crease ? 0.38 : 0),
        layer('centre', circle([0, 0], middle), {
          paper: 'centre',
          lift: 1,
          strokes: seeds(0.78 * middle, 22),
        }),
      ],
      size,
    );
  },
});

export const dahlia = defineMotif({
  id: 'dahlia',
  family: 'flowers',
  summary: 'a dahlia: rings of pointed petals, each creased to stand up',
  params: {
    size: { ...sizeParam(45), least: 20 },
    petals: petalsParam(12, 8, 16),
    rings: { ...ringsParam(4), most: 4 },
    crease: creaseParam,
  },
  build({ size, petals, rings, crease }) {
    const petal: Petal = { parts: 0.52, belly: 0.72, fills: 0.62, tip: 'pointed' };
    // Each ring shows the tips of the one behind it, a little less of them toward the middle.
    const reaches = [50, 41, 31.5, 22].slice(0, rings);
    mustHold(size, petals, petal, reaches.at(-1)!);
    const button = scallopedCircle(petals, (150 * Math.PI) / 180);
    return figure(
      [
        ...tiersOf(petals, petal, reaches, crease ? 0.5 : 0),
        layer('centre', transform(button, [7.5, 0, 0, 7.5, 0, 0]), { paper: 'centre', lift: 1 }),
      ],
      size,
    );
  },
});
