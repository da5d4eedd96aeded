/** Scalloped shapes: a whole number of equal arcs, whatever the size. */
import { defineMotif } from '../contracts.js';
import { arcTo, bounds, circle, clockwise, polar, scaling, transform } from '../geom/index.js';
import type { Path, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { layer, sizeParam } from './layers.js';
import { scallopParams } from './scallop-edge.js';
import { stitched, stitchParams } from './stitches.js';

/** A disc edged by `count` equal arcs of `sweep` radians, its first notch beside the top, about
 *  the origin. Its notches lie on the unit circle. */
export function scallopedCircle(count: number, sweep: number): Path {
  const notch = (i: number) => polar(1, Math.PI / 2 + ((i - 0.5) * 2 * Math.PI) / count);
  const start = notch(0);
  const segments: Segment[] = [];
  for (let i = 1; i <= count; i++) segments.push(arcTo(i === count ? start : notch(i), sweep));
  return { start, segments, closed: true };
}

export const scallopedDisc = defineMotif({
  id: 'scalloped-disc',
  family: 'scallops',
  summary: 'a disc with a scalloped edge, plain or pierced',
  params: {
    size: sizeParam(50),
    ...scallopParams(20, 8, 160),
    ...stitchParams,
    stitch: { ...stitchParams.stitch, default: 'none' },
  },
  build({ size, scallops, sweep, eyelet, stitch, inset, stitchLength }) {
    const unit = scallopedCircle(scallops, (sweep * Math.PI) / 180);
    const b = bounds(unit);
    const scale = size / (b.maxX - b.minX);
    const outline = transform(unit, scaling(scale));
    // Scallops are as wide as their chord; the eyelet sits in the middle of the round part.
    const chord = 2 * scale * Math.sin(Math.PI / scallops);
    const radius = chord / 2 / Math.sin((sweep * Math.PI) / 360);
    const middle =
      scale * Math.cos(Math.PI / scallops) - radius * Math.cos((sweep * Math.PI) / 360);
    if (eyelet > 0) {
      const most = Math.min(
        2 * (radius - LEAST_WIDTH_MM),
        2 * middle * Math.sin(Math.PI / scallops) - LEAST_WIDTH_MM,
      );
      if (!(eyelet >= 1 && eyelet <= most)) {
        throw new ParamError(
          'eyelet',
          eyelet,
          most < 1 ? 'there is no room for one' : `0, or from 1 to ${most.toFixed(2)} mm here`,
          'use fewer scallops, a larger size, or 0',
        );
      }
    }
    const holes =
      eyelet > 0
        ? Array.from({ length: scallops }, (_, i) =>
            clockwise(
              circle(polar(middle, Math.PI / 2 + (i * 2 * Math.PI) / scallops), eyelet / 2),
            ),
          )
        : [];
    const inner = (eyelet > 0 ? middle - eyelet / 2 : scale) - inset;
    if (stitch === 'none') return [layer('front', outline, { holes })];
    if (!(inner > 2 * stitchLength)) {
      const most = inner + inset - 2 * stitchLength;
      throw new ParamError(
        'inset',
        inset,
        `less than ${Math.max(most, 0).toFixed(2)} mm here`,
        'bring the stitches nearer to the edge, shorten them, or leave them out',
      );
    }
    const strokes = stitched(circle([0, 0], inner), { stitch, stitchLength });
    return [layer('front', outline, { holes, strokes })];
  },
});
