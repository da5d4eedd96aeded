/** Printed art on an SVG of a sheet. */
import type { Container, Svg } from '@svgdotjs/svg.js';
import { rectangle } from '../geom/index.js';
import type { PlacedArt } from '../model.js';
import { artPaths } from './art-paths.js';
import { pathData } from './svg.js';

/** Paints the arts in order; y down from `height`. Clips are named after `id`. */
export function drawArts(
  root: Svg,
  group: Container,
  arts: readonly PlacedArt[],
  { width, height }: { readonly width: number; readonly height: number },
  id: string,
): void {
  for (const [i, { art, at, clear = [] }] of arts.entries()) {
    const own = group.group();
    if (clear.length > 0) {
      const loops = [rectangle(0, 0, width, height), ...clear];
      const clip = root.clip().id(`${id}-${i + 1}`);
      clip.path(loops.map(p => pathData(p, height)).join('')).attr('clip-rule', 'evenodd');
      own.attr('clip-path', `url(#${id}-${i + 1})`);
    }
    for (const { colour, d } of artPaths(art, at, height)) own.path(d).fill(colour);
  }
}
