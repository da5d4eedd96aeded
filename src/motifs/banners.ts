/** A banner of ribbon, and pennants on a string. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  bounds,
  circle,
  closedPath,
  compose,
  line,
  openPath,
  openSpline,
  pathLength,
  pointAlong,
  roundedPolygon,
  transform,
  translation,
  uniteRegions,
} from '../geom/index.js';
import type { Affine, Layer, Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { drawn, figure } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { letteringParams, withText } from './lettered.js';
import { stalk } from './shapes.js';

/** A strip of paper bent to an arch: `u` runs along it from its middle, `v` up from its middle line.
 *  `bend` is its turn for each mm; 0 is straight. */
class Arch {
  constructor(private readonly bend: number) {}
  readonly at = ([u, v]: Point): Point => {
    if (this.bend === 0) return [u, v];
    const r = 1 / this.bend;
    return [(r + v) * Math.sin(u * this.bend), (r + v) * Math.cos(u * this.bend) - r];
  };
  /** Along the strip at one height. */
  along(from: number, to: number, v: number): Segment {
    const end = this.at([to, v]);
    return this.bend === 0 ? line(end) : arcTo(end, (from - to) * this.bend);
  }
  path(start: Point, segments: readonly Segment[]): Path {
    return closedPath(this.at(start), segments);
  }
}

/** Parts of the length of the whole banner, and of the height of its ribbon. */
const FRONT = 0.345;
const TUCK = 0.055;
const DROP = 0.3;
const NOTCH = 0.42;
/** Rounds of fitting the length to the width; the last is exact to the bit. */
const ROUNDS = 8;

interface BannerForm {
  /** Half of the length along the ribbon. */
  readonly half: number;
  readonly height: number;
  readonly bend: number;
}

function bannerLayers({ half, height, bend }: BannerForm): Layer[] {
  const arch = new Arch(bend);
  const h = height / 2;
  const [edge, tuck, drop] = [2 * FRONT * half, 2 * (FRONT - TUCK) * half, DROP * height];
  const front = arch.path(
    [-edge, -h],
    [arch.along(-edge, edge, -h), line(arch.at([edge, h])), arch.along(edge, -edge, h)],
  );
  const line1 = (v: number) =>
    openPath(arch.at([-0.97 * edge, v]), [arch.along(-0.97 * edge, 0.97 * edge, v)]);
  const sides = [1, -1].flatMap((s): Layer[] => {
    const name = s > 0 ? 'right' : 'left';
    const [low, high] = [-h - drop, h - drop];
    const ends = [tuck, half].map(u => s * u) as [number, number];
    const [inner, outer] = ends;
    const end =
      s > 0
        ? arch.path(
            [inner, low],
            [
              arch.along(inner, outer, low),
              line(arch.at([outer - s * NOTCH * height, -drop])),
              line(arch.at([outer, high])),
              arch.along(outer, inner, high),
            ],
          )
        : arch.path(
            [inner, high],
            [
              arch.along(inner, outer, high),
              line(arch.at([outer - s * NOTCH * height, -drop])),
              line(arch.at([outer, low])),
              arch.along(outer, inner, low),
            ],
          );
    return [layer(`end-${name}`, end, { paper: 'back' })];
  });
  const folds = [1, -1].map((s): Layer => {
    // It reaches up behind the front, where it is glued.
    const [a, b] = [arch.at([s * edge, -h]), arch.at([s * tuck, -h - drop])];
    const [c, d] = [arch.at([s * tuck, -0.3 * h]), arch.at([s * edge, -0.3 * h])];
    const around = s > 0 ? [b, a, d, c] : [b, c, d, a];
    return layer(
      `fold-${s > 0 ? 'right' : 'left'}`,
      closedPath(around[0]!, around.slice(1).map(line)),
      {
        paper: 'fold',
      },
    );
  });
  const strokes = [0.78 * h, -0.78 * h].map(v => drawn(line1(v)));
  return [...sides, ...folds, layer('front', front, { lift: 1, strokes })];
}

export const banner = defineMotif({
  id: 'banner',
  family: 'ribbons',
  summary: 'a banner of ribbon with folded ends, for a few words',
  params: {
    size: { ...sizeParam(100), least: 40 },
    height: { kind: 'length', default: 18, least: 8, most: 80, help: 'height of the ribbon' },
    arch: {
      kind: 'angleDeg',
      default: 26,
      least: 0,
      most: 60,
      help: 'how far it arches; 0 is not',
    },
    ...letteringParams,
  },
  build(values, tools): readonly Layer[] {
    const { size, height, arch } = values;
    if (!(height <= 0.3 * size)) {
      const most = `at most ${(0.3 * size).toFixed(2)} mm for a banner ${size} mm wide`;
      throw new ParamError('height', height, most, 'make it lower or the banner wider');
    }
    const angle = (arch * Math.PI) / 180;
    let half = size / 2;
    for (let i = 0; i < ROUNDS; i++) {
      const b = bounds(
        ...bannerLayers({ half, height, bend: angle / (2 * half) }).map(l => l.outline),
      );
      half *= size / (b.maxX - b.minX);
    }
    const form = { half, height, bend: angle / (2 * half) };
    const layers = bannerLayers(form);
    const front = layers.at(-1)!;
    const box = { middle: [0, 0] as const, width: 3.6 * FRONT * half, height: 0.56 * height };
    const bendTo = new Arch(form.bend);
    return figure([...layers.slice(0, -1), withText(front, values, box, tools, bendTo.at)], size);
  },
});

/** A pennant that hangs from the middle of its top, one unit wide; its cloth goes a little above. */
const PENNANTS = {
  pointed: roundedPolygon(
    [
      [0, -1.24],
      [0.5, 0],
      [0.5, 0.14],
      [-0.5, 0.14],
      [-0.5, 0],
    ],
    [0.04, 0, 0, 0, 0],
  ),
  swallowtail: roundedPolygon(
    [
      [0, -0.86],
      [0.46, -1.2],
      [0.5, 0.14],
      [-0.5, 0.14],
      [-0.46, -1.2],
    ],
    0,
  ),
  round: closedPath(
    [0.5, -0.62],
    [line([0.5, 0.14]), line([-0.5, 0.14]), line([-0.5, -0.62]), arcTo([0.5, -0.62], Math.PI)],
  ),
} as const;
/** Where a letter goes on each, and how large: its box's middle and sides. */
const LETTERS = {
  pointed: { y: -0.34, side: 0.44 },
  swallowtail: { y: -0.36, side: 0.56 },
  round: { y: -0.42, side: 0.58 },
} as const;

/** Cord, mm; a pennant takes this part of its share of it. */
const CORD_MM = 1.5;
const KNOT_MM = 1.7;
const SHARE = 0.88;
const LEAST_PENNANT_MM = 6;

export const pennants = defineMotif({
  id: 'pennants',
  family: 'ribbons',
  summary: 'pennants on a string, with a letter on each if you like',
  params: {
    size: { ...sizeParam(140), least: 40 },
    pennants: {
      kind: 'count',
      default: 7,
      least: 2,
      most: 24,
      help: 'how many; with text there is one for each letter',
    },
    form: {
      kind: 'choice',
      default: 'pointed',
      choices: ['pointed', 'swallowtail', 'round'],
      help: 'how they end',
    },
    sag: {
      kind: 'number',
      default: 0.11,
      least: 0,
      most: 0.25,
      help: 'how deep the string hangs, as a part of the width',
    },
    ...letteringParams,
    text: { ...letteringParams.text, longest: 24 },
    font: { ...letteringParams.font, default: 'nunito-bold' },
  },
  build(values, tools): readonly Layer[] {
    const { size, form, sag, text } = values;
    const letters = [...text.trim()];
    const count = letters.length > 1 ? letters.length : values.pennants;
    const reach = size / 2 - KNOT_MM;
    const spine: Point[] = [-1, -0.5, 0, 0.5, 1].map(t => [t * reach, sag * size * (t * t - 1)]);
    const string = openSpline(spine);
    const long = pathLength(string);
    const pitch = long / (count + 0.5);
    const wide = SHARE * pitch;
    if (!(wide >= LEAST_PENNANT_MM)) {
      const most = Math.floor((SHARE * long) / LEAST_PENNANT_MM - 0.5);
      const allowed = `at most ${most} on a string ${size} mm wide`;
      throw new ParamError('pennants', count, allowed, 'take fewer, or make it wider');
    }
    const knots = [-reach, reach].map(x => circle([x, 0], KNOT_MM));
    const cord = uniteRegions(
      [stalk(spine.map(([x, y]) => [x, y, CORD_MM] as const)), ...knots].map(outer => ({
        outer,
        holes: [],
      })),
    );
    const shape = PENNANTS[form as keyof typeof PENNANTS];
    const { y, side } = LETTERS[form as keyof typeof LETTERS];
    const flags = Array.from({ length: count }, (_, i): Layer => {
      const { point, tangent } = pointAlong(string, long / 2 + (i - (count - 1) / 2) * pitch);
      const hang: Affine = [tangent[0], tangent[1], -tangent[1], tangent[0], 0, 0];
      const at = compose(translation(...point), compose(hang, [wide, 0, 0, wide, 0, 0]));
      const from = Math.min(i, count - 1 - i);
      const flag = layer(`pennant-${i + 1}`, transform(shape, at), {
        paper: ['main', 'back', 'third'][from % 3]!,
      });
      if (letters.length < 2) return flag;
      const middle: Point = [at[2] * y + at[4], at[3] * y + at[5]];
      const room = { middle, width: side * wide, height: side * wide };
      const turn = Math.atan2(tangent[1], tangent[0]);
      return withText(flag, { ...values, text: letters[i]! }, { ...room, turn }, tools);
    });
    return figure([layer('cord', cord[0]!.outer, { paper: 'cord' }), ...flags], size);
  },
});
