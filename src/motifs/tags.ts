/** Tags to tie on: a hole near the top, and a ring about it that keeps it from tearing out. */
import { defineMotif } from '../contracts.js';
import {
  arcTo,
  circle,
  clockwise,
  distanceToPath,
  line,
  openPath,
  roundedPolygon,
} from '../geom/index.js';
import type { Layer, Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { letteringParams, withText } from './lettered.js';
import { seamInside, stitched, stitchParams } from './stitches.js';

/** Half of a tag's width and height, the radius of its lower corners, and how far from the middle of
 *  the hole its edge is to stay. */
interface Form {
  readonly x: number;
  readonly y: number;
  readonly corner: number;
  readonly clear: number;
}

/** Upper corners clipped off, as on a tag for luggage. */
function clipped({ x, y, corner }: Form): Path {
  const clip = 0.5 * x;
  const soft = Math.min(corner, 0.3 * clip);
  const right: Point[] = [
    [x, -y],
    [x, y - clip],
    [x - clip, y],
  ];
  const left = [...right].reverse().map(([u, v]): Point => [-u, v]);
  const radii = [corner, soft, soft];
  return roundedPolygon([[0, -y], ...right, ...left], [0, ...radii, ...[...radii].reverse()]);
}

const lower = ({ x, y, corner }: Form): Segment[] =>
  corner > 0 ? [line([x - corner, -y]), arcTo([x, corner - y], Math.PI / 2)] : [line([x, -y])];

const round = (form: Form): Path => {
  const { x, y } = form;
  return mirrored(
    openPath([0, -y], [...lower(form), line([x, y - x]), arcTo([0, y], Math.PI / 2)]),
  );
};

/** Round shoulders, a neck that draws in, and a round head about the hole. */
function shouldered(form: Form): Path {
  const { x, y, clear } = form;
  const head = Math.min(clear, 0.72 * x);
  const [shoulder, neck] = [0.58 * (x - head), 0.42 * (x - head)];
  const low = y - head - neck - shoulder;
  const quarter = Math.PI / 2;
  const half = openPath(
    [0, -y],
    [
      ...lower(form),
      line([x, low]),
      arcTo([x - shoulder, low + shoulder], quarter),
      arcTo([head, y - head], -quarter),
      arcTo([0, y], quarter),
    ],
  );
  return mirrored(half);
}

const SHAPES = { clipped, round, shouldered } as const;

/** Paper that is left about the ring where nothing is stitched, mm. */
const RIM_MM = 2.6;
/** The stitches stay this far from the ring, mm. */
const SEAM_CLEAR_MM = 1.8;
/** Air beside the text, as a part of the shorter side of its room. */
const AIR = 0.1;

export const tag = defineMotif({
  id: 'tag',
  family: 'labels',
  summary: 'a tag to tie on, with a ring that keeps its hole from tearing',
  params: {
    size: { ...sizeParam(38), least: 20 },
    height: { kind: 'length', default: 70, least: 30, most: 300, help: 'height of the tag' },
    shape: {
      kind: 'choice',
      default: 'clipped',
      choices: ['clipped', 'round', 'shouldered'],
      help: 'upper corners clipped off, a round top, or round shoulders with a head',
    },
    corner: { kind: 'length', default: 3, least: 0, most: 8, help: 'radius of the lower corners' },
    hole: { kind: 'length', default: 5, least: 2, most: 12, help: 'hole for the string' },
    ring: {
      kind: 'length',
      default: 2.6,
      least: 0,
      most: 8,
      help: 'width of the ring about the hole; 0 is none',
    },
    reading: {
      kind: 'choice',
      default: 'across',
      choices: ['across', 'along'],
      help: 'the text runs across the tag, or along it from the bottom up',
    },
    ...letteringParams,
    ...stitchParams,
  },
  build(values, tools): readonly Layer[] {
    const { size, height, shape, corner, hole, ring, reading, stitch, inset, stitchLength } =
      values;
    const border = stitch === 'none' ? 0 : inset;
    const radius = hole / 2 + ring;
    const clear = radius + Math.max(RIM_MM, border > 0 ? border + SEAM_CLEAR_MM : 0);
    const form = { x: size / 2, y: height / 2, corner, clear };
    if (!(height >= 1.25 * size)) {
      const most = `at least ${(1.25 * size).toFixed(2)} mm for a tag ${size} mm wide`;
      throw new ParamError('height', height, most, 'make the tag higher or narrower');
    }
    const outline = SHAPES[shape as keyof typeof SHAPES](form);
    const eye: Point = [0, height / 2 - clear];
    const room = distanceToPath(eye, outline);
    if (!(room >= clear - 1e-9) || (ring > 0 && ring < LEAST_WIDTH_MM)) {
      throw new ParamError(
        ring < LEAST_WIDTH_MM && ring > 0 ? 'ring' : 'hole',
        ring < LEAST_WIDTH_MM && ring > 0 ? ring : hole,
        ring < LEAST_WIDTH_MM && ring > 0
          ? `0, or at least ${LEAST_WIDTH_MM} mm`
          : `smaller: with its ring it needs ${clear.toFixed(2)} mm about its middle, and has ` +
              `${room.toFixed(2)} mm`,
        'make the hole or the ring smaller, or the tag larger',
      );
    }
    const seam = border > 0 ? seamInside(outline, border) : undefined;
    if (border > 0 && !seam) {
      throw new ParamError(
        'inset',
        inset,
        'the stitches do not fit inside the tag there',
        'bring them nearer to the edge, or make the tag larger',
      );
    }
    const opening = clockwise(circle(eye, hole / 2));
    const front = layer('front', outline, {
      holes: [opening],
      through: [opening],
      strokes: stitched(seam, { stitch, stitchLength }),
    });
    const top = eye[1] - radius;
    const side = size - 2 * border;
    const high = top + height / 2 - border;
    const air = 2 * AIR * Math.min(side, high);
    const box = { middle: [0, top - high / 2] as const, width: side - air, height: high - air };
    const along = { ...box, width: box.height, height: box.width, turn: Math.PI / 2 };
    const written = withText(front, values, reading === 'along' ? along : box, tools);
    if (ring === 0) return [written];
    return [written, layer('ring', circle(eye, radius), { paper: 'ring', holes: [opening] })];
  },
});
