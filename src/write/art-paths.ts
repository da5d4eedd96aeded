/** Printed art as SVG path data: one path a colour, however many shapes it has. */
import { transform } from '../geom/index.js';
import type { Affine, Art } from '../model.js';
import { hex, pathData } from './svg.js';

export interface ColouredPath {
  readonly colour: string;
  /** To be filled by the non-zero rule: outlines turn one way and holes the other, and shapes of one
   *  colour may overlap. */
  readonly d: string;
}

/** The ground, then the fills in the order of painting. `height` is that of the sheet: SVG's y runs
 *  down. */
export function artPaths(art: Art, at: Affine, height: number): ColouredPath[] {
  const data = (path: Art['bleed']) => pathData(transform(path, at), height);
  return [
    { colour: hex(art.ground), d: data(art.bleed) },
    ...art.fills.map(({ colour, regions }) => ({
      colour: hex(colour),
      d: regions.flatMap(r => [r.outer, ...r.holes].map(data)).join(''),
    })),
  ];
}
