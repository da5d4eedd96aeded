/** Pennants on a string. */
import { defineMotif } from '../contracts.js';
import {
  apply,
  arcTo,
  closedPath,
  compose,
  line,
  openSpline,
  pathLength,
  pointAlong,
  roundedPolygon,
  transform,
  translation,
} from '../geom/index.js';
import type { Affine, Layer, Point } from '../model.js';
import { ParamError } from '../params.js';
import { figure } from './figure.js';
import { layer, sizeParam } from './layers.js';
import { letteringParams, withText } from './lettered.js';
import { stalk } from './shapes.js';

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
    const at = (t: number): Point => [t * reach, sag * size * (t * t - 1)];
    const spine = [-1, -0.5, 0, 0.5, 1].map(at);
    const string = openSpline(spine);
    // The knots at the ends swell out of the cord within their own width.
    const knotted = 1 - (2 * KNOT_MM) / reach;
    const along = [-knotted, -0.5, 0, 0.5, knotted].map(at);
    const long = pathLength(string);
    const pitch = long / (count + 0.5);
    const wide = SHARE * pitch;
    if (!(wide >= LEAST_PENNANT_MM)) {
      const most = Math.floor((SHARE * long) / LEAST_PENNANT_MM - 0.5);
      const allowed = `at most ${most} on a string ${size} mm wide`;
      throw new ParamError('pennants', count, allowed, 'take fewer, or make it wider');
    }
    const cord = stalk([
      [...at(-1), KNOT_MM * 2],
      ...along.map(([x, y]) => [x, y, CORD_MM] as const),
      [...at(1), KNOT_MM * 2],
    ]);
    const shape = PENNANTS[form as keyof typeof PENNANTS];
    const { y, side } = LETTERS[form as keyof typeof LETTERS];
    const flags = Array.from({ length: count }, (_, i): Layer => {
      const { point, tangent } = pointAlong(string, long / 2 + (i - (count - 1) / 2) * pitch);
      const hang: Affine = [tangent[0], tangent[1], -tangent[1], tangent[0], 0, 0];
      const placed = compose(translation(...point), compose(hang, [wide, 0, 0, wide, 0, 0]));
      const from = Math.min(i, count - 1 - i);
      const flag = layer(`pennant-${i + 1}`, transform(shape, placed), {
        paper: ['main', 'back', 'third'][from % 3]!,
      });
      if (letters.length < 2) return flag;
      const middle: Point = apply(placed, [0, y]);
      const room = { middle, width: side * wide, height: side * wide };
      const turn = Math.atan2(tangent[1], tangent[0]);
      return withText(flag, { ...values, text: letters[i]! }, { ...room, turn }, tools);
    });
    return figure([layer('cord', cord, { paper: 'cord' }), ...flags], size);
  },
});
