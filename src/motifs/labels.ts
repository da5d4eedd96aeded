/** Labels: a shape with room for text, and a stitched border. */
import { defineMotif } from '../contracts.js';
import type { Layer } from '../model.js';
import { ParamError } from '../params.js';
import { LABEL_SHAPES } from './label-shapes.js';
import { layer, sizeParam } from './layers.js';
import { letteringParams, withText } from './lettered.js';
import { seamInside, stitched, stitchParams } from './stitches.js';

/** Air between the text and the stitches, as a part of the label's height. */
const AIR = 0.1;

export const label = defineMotif({
  id: 'label',
  family: 'labels',
  summary: 'a label with text and a stitched border',
  params: {
    size: sizeParam(70),
    height: { kind: 'length', default: 32, least: 8, most: 200, help: 'height of the label' },
    shape: {
      kind: 'choice',
      default: 'rounded',
      choices: ['rounded', 'ticket', 'bracket', 'ornate', 'oval'],
      help: 'corners rounded or cut in like a ticket, ends like a bracket, a plaque, or an oval',
    },
    corner: {
      kind: 'length',
      default: 5,
      least: 0,
      most: 60,
      help: 'radius of the corners; an oval has none',
    },
    ...letteringParams,
    ...stitchParams,
  },
  build(values, tools): readonly Layer[] {
    const { size, height, shape, corner, stitch, inset, stitchLength } = values;
    const form = LABEL_SHAPES[shape as keyof typeof LABEL_SHAPES];
    const most = form.most(size, height);
    if (!(corner <= most && (corner > 0 || shape === 'rounded' || shape === 'oval'))) {
      throw new ParamError(
        'corner',
        corner,
        `${shape === 'rounded' ? '' : 'more than 0 and '}at most ${most.toFixed(2)} mm for a ` +
          `${shape} label of ${size} × ${height} mm`,
        'make the corner smaller or the label larger',
      );
    }
    const { outline, room } = form.draw(size, height, corner);
    const border = stitch === 'none' ? 0 : inset;
    const seam = border > 0 ? seamInside(outline, border) : undefined;
    if (border > 0 && !seam) {
      throw new ParamError(
        'inset',
        inset,
        'the stitches do not fit inside the label there',
        'bring them nearer to the edge, or make the label or its corner larger',
      );
    }
    const strokes = stitched(seam, { stitch, stitchLength });
    const air = 2 * (border + AIR * height);
    const box = { middle: [0, 0], width: room.width - air, height: room.height - air } as const;
    return [withText(layer('front', outline, { strokes }), values, box, tools)];
  },
});
