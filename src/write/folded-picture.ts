/**
 * Pictures of folded boxes: the parts of the paper as they are seen, farthest first, each with what
 * is glued to it. Orthographic, so what lies on a flat part is drawn as its affine image and stays
 * exact; the part's own outline clips it.
 */
import type { Container, Svg } from '@svgdotjs/svg.js';
import { compose, transformAny } from '../geom/index.js';
import type { Affine, Bounds, Decal, Path, Point, SeenPart } from '../model.js';
import { num } from './number.js';
import { hex, pathData } from './svg.js';
import { composeSvg } from './svg-document.js';
import { wholeFaces } from './whole-faces.js';

export interface FoldedSubject {
  readonly parts: readonly SeenPart[];
  /** Colour of the paper of each net, outside and inside. */
  readonly paper: (net: string) => { readonly outside: string; readonly inside: string };
  readonly decals: readonly Decal[];
}

/** How dark the side away from the light is, and how bright the one toward it. */
const DARKEST = 0.72;
const BRIGHTEST = 1.04;
/** Share of the picture left around the box. */
const MARGIN = 0.08;
const TABLE = '#efe8dc';
/** An edge of paper is this much darker than its face. */
const EDGE = 0.62;
/** Pixels: widths of paper edges, and how far a layer's shadow falls. */
const EDGE_PX = 1.1;
const SHADOW_PX = 1.6;

/** The extent of what is seen, mm on the picture plane. */
export function seenBounds(parts: readonly SeenPart[]): Bounds {
  const points = parts.flatMap(p => p.polygon);
  const xs = points.map(p => p[0]);
  const ys = points.map(p => p[1]);
  return {
    minX: Math.min(...xs),
    minY: Math.min(...ys),
    maxX: Math.max(...xs),
    maxY: Math.max(...ys),
  };
}

/** An SVG document `widthPx` wide. Throws when nothing is seen, and on NaN like every writer. */
export function foldedPicture(subject: FoldedSubject, widthPx = 900): Promise<string> {
  const seen = seenBounds(subject.parts);
  if (!(seen.maxX > seen.minX)) throw new RangeError('nothing of the box is seen');
  const margin = MARGIN * Math.max(seen.maxX - seen.minX, seen.maxY - seen.minY);
  const width = seen.maxX - seen.minX + 2 * margin;
  const height = seen.maxY - seen.minY + 2 * margin;
  const px = width / widthPx;
  return composeSvg(root => {
    root.size(widthPx, Math.round(height / px));
    root.viewbox(0, 0, Number(num(width)), Number(num(height)));
    root.rect(Number(num(width)), Number(num(height))).fill(TABLE);
    const frame: Affine = [1, 0, 0, 1, margin - seen.minX, margin - seen.minY];
    drawFolded(root, root.group(), subject, frame, height, px);
  });
}

/** Draws the parts into a document. `frame` takes the picture plane to the document's, y up; the
 *  document's own height turns it over. `px` is the length of a pixel, mm. */
export function drawFolded(
  root: Svg,
  group: Container,
  { parts, paper, decals }: FoldedSubject,
  frame: Affine,
  height: number,
  px: number,
): void {
  const place = ([x, y]: Point): Point => [
    frame[0] * x + frame[2] * y + frame[4],
    frame[1] * x + frame[3] * y + frame[5],
  ];
  wholeFaces(parts).forEach((face, i) => {
    const { net, panel, side, light, at } = face[0]!;
    const polygons = face.map(part => part.polygon.map(place));
    const outline = polygons.map(p => polygonData(p, height)).join('');
    const colour = shaded(paper(net)[side], light);
    // A hair of its own colour closes the seams between faces.
    group
      .path(outline)
      .fill(colour)
      .stroke({ color: colour, width: 0.6 * px, linejoin: 'round' });
    const upon = decals.filter(d => d.net === net && d.panel === panel && d.side === side);
    if (upon.length > 0) {
      root.clip().id(`face-${i}`).path(outline);
      const clip = `url(#face-${i})`;
      const onFace = (): Container => group.group().attr('clip-path', clip);
      let inside = onFace();
      let loose = false;
      upon.forEach((decal, k) => {
        const on = compose(frame, compose(at, decal.at));
        // One group for those that end with the paper; what reaches past it is seen there.
        if (loose !== (decal.overhangs === true)) {
          loose = !loose;
          inside = loose ? group.group() : onFace();
        }
        drawDecal(root, inside, decal, `face-${i}-${k}`, on, light, height, px);
      });
    }
    const edge = shaded(paper(net)[side], edgeLight(light));
    face.forEach(({ edges }, j) => {
      const corners = polygons[j]!;
      const sides = corners.flatMap((corner, k) =>
        edges[k] ? [polygonData([corner, corners[(k + 1) % corners.length]!], height, false)] : [],
      );
      if (sides.length === 0) return;
      const line = group.path(sides.join('')).fill('none');
      line.stroke({ color: edge, width: EDGE_PX * px, linecap: 'round' });
    });
  });
}

const edgeLight = (light: number) => light * EDGE - (1 - EDGE);

function drawDecal(
  root: Svg,
  group: Container,
  { piece, colour }: Decal,
  id: string,
  at: Affine,
  light: number,
  height: number,
  px: number,
): void {
  const data = (paths: readonly Path[], by: Affine = at) =>
    paths.map(p => pathData(transformAny(p, by), height)).join('');
  const cut = [piece.outline, ...piece.holes];
  const shadow: Affine = [
    at[0],
    at[1],
    at[2],
    at[3],
    at[4] + SHADOW_PX * px,
    at[5] - SHADOW_PX * px,
  ];
  group
    .path(data(cut, shadow))
    .attr('fill-rule', 'evenodd')
    .fill({ color: '#2b1d10', opacity: 0.22 });
  // A printer has no white ink: white is the paper's own colour.
  const printed = piece.art?.ground;
  const ground = printed === undefined || printed === '#ffffff' ? colour : printed;
  group
    .path(data(cut))
    .attr('fill-rule', 'evenodd')
    .fill(shaded(ground, light))
    .stroke({ color: shaded(ground, edgeLight(light)), width: 0.7 * px });
  const { fills = [] } = piece.art ?? {};
  // Art reaches past the cut by the bleed: what is cut off is not glued on.
  if (fills.length > 0) {
    root.clip().id(id).path(data(cut)).attr('clip-rule', 'evenodd');
  }
  const within = fills.length > 0 ? group.group().attr('clip-path', `url(#${id})`) : group;
  for (const fill of fills) {
    const regions = fill.regions.map(r => data([r.outer, ...r.holes])).join('');
    if (regions === '') continue;
    within.path(regions).attr('fill-rule', 'evenodd').fill(shaded(fill.colour, light));
  }
  for (const { operation, path } of piece.strokes) {
    if (operation === 'cut') continue;
    const line = group.path(data([path])).fill('none');
    line.stroke({ color: shaded('#5b4a3c', light), width: 1.2 * px, linecap: 'round' });
  }
}

function polygonData(points: readonly Point[], height: number, closed = true): string {
  const words = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${num(x)} ${num(height - y)}`);
  return words.join('') + (closed ? 'Z' : '');
}

/** A colour in the light: `light` from −1 (away) to 1 (toward the lamp). */
function shaded(colour: string, light: number): string {
  const value = Number.parseInt(hex(colour).slice(1), 16);
  const k = DARKEST + ((BRIGHTEST - DARKEST) * (light + 1)) / 2;
  const part = (shift: number) => {
    const c = Math.max(0, Math.min(255, Math.round(((value >> shift) & 255) * k)));
    return c.toString(16).padStart(2, '0');
  };
  return `#${part(16)}${part(8)}${part(0)}`;
}
