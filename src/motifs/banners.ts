/** A banner of ribbon with folded ends. */
import { defineMotif } from '../contracts.js';
import { arcTo, bounds, closedPath, line, openPath } from '../geom/index.js';
import type { Layer, Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { drawn, figure } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { letteringParams, withText } from './lettered.js';

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
