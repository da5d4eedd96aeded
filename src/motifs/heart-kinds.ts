/** Hearts for folk who fold and layer: slim, folded down the middle, edged with lace. */
import { defineMotif } from '../contracts.js';
import {
  add,
  circle,
  clockwise,
  corner,
  distance,
  heading,
  length,
  lerp,
  line,
  openPath,
  perp,
  scale,
  sub,
  transform,
  translation,
} from '../geom/index.js';
import type { Layer, Path, Point } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { scored } from './figure.js';
import { heartHalf, heartOutline } from './hearts.js';
import { layer, sized, sizeParam } from './layers.js';
import { beadsAlong, scallopParams } from './scallop-edge.js';
import { scalloped, sideParam, WIDE_CLEFT } from './scallop-shapes.js';
import { mirroredSpline } from './shapes.js';

/** A crease stops this far inside the edge, mm, so that it does not start a tear there (common
 *  practice, no source). */
const CREASE_SHORT_MM = 0.8;

export const slimHeart = defineMotif({
  id: 'slim-heart',
  family: 'hearts',
  summary: 'a tall slim heart that draws in to a long point',
  params: {
    size: sizeParam(26),
    proportion: {
      kind: 'number',
      default: 1.4,
      least: 1.2,
      most: 1.7,
      help: 'height over width',
    },
  },
  build({ size, proportion }) {
    // Drawn 100 wide; only its flanks are stretched, the lobes stay round.
    const h = 100 * proportion;
    const outline = mirroredSpline([
      corner([0, 0], 'free', [0.3, 1]),
      [26, 0.33 * h],
      heading([50, h - 37], [0, 1]),
      heading([27, h], [-1, 0]),
      corner([0, h - 27], [-0.32, -1]),
    ]);
    return [layer('front', sized(outline, size))];
  },
});

/** The smallest heart that hands can crease. */
const LEAST_HEART_MM = 9;

/** The line down a heart's middle, from near its point to near its cleft. */
function spine(heart: Path): Path {
  const top = heart.segments[heart.segments.length / 2 - 1]!.to;
  return openPath([0, heart.start[1] + 2 * CREASE_SHORT_MM], [line([0, top[1] - CREASE_SHORT_MM])]);
}

export const foldedHeart = defineMotif({
  id: 'folded-heart',
  family: 'hearts',
  summary: 'hearts creased down the middle and glued along it, so that their wings stand up',
  params: {
    size: sizeParam(40),
    leaves: { kind: 'count', default: 2, least: 1, most: 4, help: 'hearts on each other' },
    reveal: {
      kind: 'length',
      default: 2,
      least: 0,
      most: 8,
      help: 'how much of each heart shows beside the one on it',
    },
  },
  build({ size, leaves, reveal }) {
    const most = (size - LEAST_HEART_MM) / 2 / Math.max(leaves - 1, 1);
    if (!(reveal <= most)) {
      throw new ParamError(
        'reveal',
        reveal,
        `at most ${most.toFixed(2)} mm for ${leaves} hearts from ${size} mm down`,
        'make it smaller, the heart larger, or take fewer',
      );
    }
    const form = { proportion: 0.98, cleft: 0.2, point: (78 * Math.PI) / 360 };
    return Array.from({ length: leaves }, (_, i): Layer => {
      const width = size - 2 * reveal * i;
      const outline = sized(heartOutline(form), width);
      const top = i === leaves - 1;
      return layer(top ? 'front' : `back-${leaves - 1 - i}`, outline, {
        paper: (leaves - 1 - i) % 2 === 0 ? 'main' : 'back',
        strokes: i === 0 && leaves > 1 ? [] : [scored(spine(outline))],
      });
    });
  },
});

export const laceHeart = defineMotif({
  id: 'lace-heart',
  family: 'hearts',
  summary: 'a heart on a heart of pierced lace',
  params: {
    size: { ...sizeParam(60), least: 30 },
    scallops: { ...sideParam(12), most: 20 },
    eyelet: { ...scallopParams(0).eyelet, default: 2.2, least: 1, most: 4 },
  },
  build({ size, scallops, eyelet }) {
    const strung = beadsAlong(heartHalf(WIDE_CLEFT), scallops, 'across');
    const plain = { sweep: 160, stitch: 'none', inset: 0, stitchLength: 0 };
    const string = heartOutline(WIDE_CLEFT);
    const { front, beads } = scalloped(string, strung, { size, eyelet, ...plain });
    const pitch = distance(beads[0]!, beads[1]!);
    const dots = innerRow(beads, 0.66 * pitch, Math.max(0.7 * eyelet, LEAST_WIDTH_MM));
    // Drawn to stand clear of both rows all round.
    const top = sized(string, size - 3.5 * pitch - eyelet);
    return [
      { ...front, id: 'lace', paper: 'lace', holes: [...front.holes, ...dots] },
      layer('front', transform(top, translation(0, -0.012 * size)), { lift: 1 }),
    ];
  },
});

/** Dots between the eyelets, moved inward by `depth`; none where the point of the heart is too narrow
 *  for them. */
function innerRow(beads: readonly Point[], depth: number, diameter: number): Path[] {
  const inner = beads.slice(1).map((b, i): Point => {
    const a = beads[i]!;
    const along = sub(b, a);
    return add(lerp(a, b, 0.5), scale(perp(along), depth / length(along)));
  });
  return inner
    .filter(([x]) => x > diameter)
    .flatMap(([x, y]) => [x, -x].map(at => clockwise(circle([at, y], diameter / 2))));
}
