/**
 * Pictures of folded boxes: the parts of the paper as they are seen, farthest first, each with what
 * is glued to it and the light on it. Orthographic, so what lies on a flat part is drawn as its affine
 * image and stays exact; the part's own outline clips it.
 */
import { bounds, compose, polygon, polyline, transformAny, translation } from '../geom/index.js';
import type { Affine, Bounds, Decal, FaceMark, Path, Point, SeenPart } from '../model.js';
import { brightness, edgeLight, shaded } from '../shading.js';
import { faceMark, filmMarks } from './face-marks.js';
import { type Colour, type Figure, hatch, type Mark } from './figure.js';
import { figureSvg } from './figure-svg.js';
import { curledMark, FOAM_FALL, type Light, placer, shadeMarks, tableMark } from './light-marks.js';
import { isBeside, movedSides } from './moved-sides.js';
import { bandsOf, wholeFaces } from './whole-faces.js';

export interface FoldedSubject {
  readonly parts: readonly SeenPart[];
  /** Colour of the paper of each net, outside and inside. */
  readonly paper: (
    net: string,
    panel: string,
  ) => { readonly outside: string; readonly inside: string };
  readonly decals: readonly Decal[];
  /** Cuts, pen lines and dots on the paper. */
  readonly marks?: readonly FaceMark[];
  /** What falls on the table, as loops, once for each point of the lamp. */
  readonly table?: readonly (readonly (readonly Point[])[])[];
  /** Where glue goes: hatched. */
  readonly glue?: readonly {
    readonly net: string;
    readonly panel: string;
    readonly side: 'inside' | 'outside';
    readonly area: Path;
  }[];
}

/** Share of the picture left around the box. */
const MARGIN = 0.08;
const TABLE = '#efe8dc';
/** How soft a shadow is at its foot, of the picture's longer side. */
const SOFT = 0.009;
/** Pixels: the width of a paper's edge, how far a layer's shadow falls, and between lines of glue. */
const RIM_PX = 1.1;
const SHADOW_PX = 1.6;
const GLUE_PX = 5;
/** Pixels by which what is glued on reaches over the painter's own cuts, so that none of them shows. */
const SEAM_PX = 0.4;
const SEAM_LINE_PX = 0.6;
const GLUE: Colour = '#0072b2';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** The extent of what is seen, mm on the picture plane. */
export function seenBounds(parts: readonly SeenPart[]): Mutable<Bounds> {
  const out = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const { polygon: points } of parts) {
    for (const [x, y] of points) {
      out.minX = Math.min(out.minX, x);
      out.minY = Math.min(out.minY, y);
      out.maxX = Math.max(out.maxX, x);
      out.maxY = Math.max(out.maxY, y);
    }
  }
  return out;
}

/** An SVG document `widthPx` wide. Throws when nothing is seen, and on NaN like every writer. */
export function foldedPicture(subject: FoldedSubject, widthPx = 900): string {
  const { table: shadows = [] } = subject;
  const seen = shownBounds(subject);
  const margin = MARGIN * Math.max(seen.maxX - seen.minX, seen.maxY - seen.minY);
  const width = seen.maxX - seen.minX + 2 * margin;
  const height = seen.maxY - seen.minY + 2 * margin;
  const table: Mark = {
    kind: 'shape',
    paths: [
      polygon([
        [0, 0],
        [width, 0],
        [width, height],
        [0, height],
      ]),
    ],
    fill: TABLE,
  };
  const frame = translation(margin - seen.minX, margin - seen.minY);
  const soft = SOFT * Math.max(width, height);
  const fallen = shadows.length > 0 ? [tableMark(shadows, placer(frame), soft, 'room')] : [];
  const marks = foldedMarks(subject, frame, width / widthPx, 'room');
  return figureSvg({ width, height, marks: [table, ...fallen, ...marks] }, widthPx);
}

/** What is seen on a page, its longer side `side` mm, without a margin. `px` is the width of a fine line,
 *  mm. */
export function foldedFigure(subject: FoldedSubject, side: number, px: number): Figure {
  const { table: shadows = [] } = subject;
  const seen = shownBounds(subject);
  const [w, h] = [seen.maxX - seen.minX, seen.maxY - seen.minY];
  const k = side / Math.max(w, h);
  const frame: Affine = [k, 0, 0, k, -k * seen.minX, -k * seen.minY];
  const fallen = shadows.length > 0 ? [tableMark(shadows, placer(frame), SOFT * side, 'page')] : [];
  const marks = [...fallen, ...foldedMarks(subject, frame, px, 'page')];
  return { width: k * w, height: k * h, marks };
}

/** The extent of what is seen, and of what falls on the table. */
function shownBounds({ parts, table = [] }: FoldedSubject): Bounds {
  const seen = seenBounds(parts);
  if (!(seen.maxX > seen.minX)) throw new RangeError('nothing of the box is seen');
  for (const [x, y] of table.flat(2)) {
    seen.minX = Math.min(seen.minX, x);
    seen.minY = Math.min(seen.minY, y);
    seen.maxX = Math.max(seen.maxX, x);
    seen.maxY = Math.max(seen.maxY, y);
  }
  return seen;
}

/** The parts as marks. `frame` takes the picture plane to the figure's; `px` is the length of a pixel,
 *  mm of the figure. */
function foldedMarks(
  { parts, paper, decals, marks: drawn = [], glue = [] }: FoldedSubject,
  frame: Affine,
  px: number,
  seenIn: Light,
): Mark[] {
  const place = placer(frame);
  const top = topOf(parts);
  const on = <T extends { net: string; panel: string; side: string }>(
    list: readonly T[],
    { net, panel, side }: SeenPart,
  ) => list.filter(d => d.net === net && d.panel === panel && d.side === side);

  /** The paper. A hair of its own colour closes the seams between faces. */
  const ground = ({ first, own, outline }: Painted): Mark => {
    const { light, lit } = first;
    const seam = SEAM_LINE_PX * px;
    if (lit?.turning) return curledMark(outline, lit.turning, place, l => shaded(own, l), seam / 2);
    const fill = shaded(own, light);
    const line = { colour: fill, width: seam, round: true };
    return { kind: 'shape', paths: outline, all: true, fill, line };
  };
  /** What is on it. */
  const upon = ({ face, first, own, corners }: Painted): Mark[] => {
    const [glued, spots, lines] = [on(decals, first), on(glue, first), on(drawn, first)];
    if (glued.length + spots.length + lines.length === 0) return [];
    const clip = face.map(({ edges }, j) =>
      polygon(movedSides(corners[j]!, k => (edges[k] ? 0 : SEAM_PX * px))),
    );
    const image = compose(frame, first.at);
    const marks: Mark[] = [];
    if (lines.length > 0) {
      const seen = lines.map(l => faceMark(l, image, own, first.light, px));
      marks.push(clipped(clip, seen, true));
    }
    marks.push(...decalMarks(glued, clip, image, first.light, px));
    for (const g of spots) {
      const spot = [transformAny(g.area, image)];
      const lines = hatch(spot, bounds(...spot), GLUE_PX * px, { colour: GLUE, width: 1.2 * px });
      marks.push(clipped(clip, [lines], true));
    }
    return marks;
  };
  /** The edges of the paper: inside it, so that no pale one shows beside a face that hides it. */
  const rims = ({ face, first, own, corners }: Painted): Mark[] => {
    const inset = (-(RIM_PX - SEAM_LINE_PX) / 2) * px;
    const sides = face.flatMap(({ edges }, j) => {
      if (!edges.includes(true)) return [];
      const whole = corners[j]!;
      const inner = seenIn === 'room' ? movedSides(whole, k => (edges[k] ? inset : 0)) : whole;
      return inner.flatMap((p, k) =>
        edges[k] ? [polyline([p, inner[(k + 1) % inner.length]!])] : [],
      );
    });
    const colour = shaded(own, edgeLight(first.light));
    const line = { colour, width: RIM_PX * px, round: true };
    return sides.length > 0 ? [{ kind: 'shape', paths: sides, line }] : [];
  };
  /** The light over all of it, and over its hair: but not where it goes on in the same band. */
  const shade = ({ face, first, corners }: Painted, band: readonly Painted[]): Mark[] => {
    const { lit, side } = first;
    if (!lit || (seenIn === 'page' && lit.shadows.length === 0)) return [];
    const over = (SEAM_LINE_PX * px) / 2;
    // Most go on in their own face.
    const near = [corners, ...band.map(p => p.corners).filter(c => c !== corners)];
    const paths = face.map(({ edges }, j) => {
      const own = corners[j]!;
      const goesOn = (k: number) => !edges[k] && band.length > 1 && goesOnPast(own, k, near);
      return polygon(movedSides(own, k => (goesOn(k) ? 0 : over)));
    });
    return shadeMarks(paths, lit, side, top, place, seenIn);
  };

  // Strips of curled paper are shaded in a room only.
  const faces = wholeFaces(parts);
  const bands = seenIn === 'room' ? bandsOf(faces) : faces.map(face => [face]);
  return bands.flatMap((band): Mark[] => {
    const painted = band.map((face): Painted => {
      const [first] = face as [SeenPart, ...SeenPart[]];
      const corners = face.map(part => part.polygon.map(place));
      const own = paper(first.net, first.panel)[first.side];
      return { face, first, own, corners, outline: corners.map(c => polygon(c)) };
    });
    const [{ first, outline }] = painted as [Painted, ...Painted[]];
    if (first.film) return filmMarks(outline, first.light, !first.lit?.turning);
    return [
      ...painted.map(ground),
      ...painted.flatMap(p => [...upon(p), ...rims(p)]),
      ...painted.flatMap(p => shade(p, painted)),
    ];
  });
}

/** Whether past the side of a part another part begins. */
const goesOnPast = (
  corners: readonly Point[],
  side: number,
  faces: readonly Painted['corners'][],
) => faces.some(parts => parts.some(c => c !== corners && isBeside(corners, side, c)));

/** A face about to be painted: its parts, the first of them, its paper's colour, its parts' corners. */
interface Painted {
  readonly face: readonly SeenPart[];
  readonly first: SeenPart;
  readonly own: string;
  readonly corners: readonly (readonly Point[])[];
  readonly outline: readonly Path[];
}

/** How high what is seen stands over the table, mm; nothing where no heights are told. */
function topOf(parts: readonly SeenPart[]): number {
  let top = 0;
  for (const { lit, polygon: points } of parts) {
    if (!lit) continue;
    const [a, b, c] = lit.height;
    for (const [x, y] of points) top = Math.max(top, a * x + b * y + c);
  }
  return top;
}

/** What is glued on a face, clipped by it; what may reach past its panel is seen there. */
function decalMarks(
  upon: readonly Decal[],
  face: readonly Path[],
  at: Affine,
  light: number,
  px: number,
): Mark[] {
  const out: Mark[] = [];
  let kept: Mark[] = [];
  const close = () => {
    if (kept.length > 0) out.push(clipped(face, kept, true));
    kept = [];
  };
  for (const decal of upon) {
    const marks = decalOn(decal, compose(at, decal.at), light, px);
    if (decal.overhangs) {
      close();
      out.push(...marks);
    } else kept.push(...marks);
  }
  close();
  return out;
}

const clipped = (by: readonly Path[], marks: readonly Mark[], all = false): Mark => ({
  kind: 'clip',
  by,
  all,
  marks,
});

function decalOn({ piece, colour, lift }: Decal, at: Affine, light: number, px: number): Mark[] {
  const placed = (paths: readonly Path[], by: Affine = at) => paths.map(p => transformAny(p, by));
  const cut = [piece.outline, ...piece.holes];
  const fall = SHADOW_PX * px + FOAM_FALL * lift;
  const fallen = compose(translation(fall, -fall), at);
  // A printer has no white ink: white is the paper's own colour.
  const printed = piece.art?.ground;
  const ground = printed === undefined || printed === '#ffffff' ? colour : printed;
  const outline = placed(cut);
  const marks: Mark[] = [
    { kind: 'shape', paths: placed(cut, fallen), fill: '#2b1d10', opacity: 0.22 },
    {
      kind: 'shape',
      paths: outline,
      fill: shaded(ground, light),
      line: { colour: shaded(ground, edgeLight(light)), width: 0.7 * px },
    },
  ];
  // Art reaches past the cut by the bleed: what is cut off is not glued on. It is painted as it is
  // printed, and the shade of the face laid over it.
  if (piece.art && piece.art.fills.length > 0) {
    const shade = 1 - brightness(light);
    const inShade: Mark[] =
      shade > 0 ? [{ kind: 'shape', paths: outline, fill: '#000000', opacity: shade }] : [];
    marks.push(clipped(outline, [{ kind: 'art', art: piece.art, at }, ...inShade]));
  }
  const lines = piece.strokes.filter(s => s.operation !== 'cut').map(s => s.path);
  if (lines.length > 0) {
    const line = { colour: shaded('#5b4a3c', light), width: 1.2 * px, round: true };
    marks.push({ kind: 'shape', paths: placed(lines), line });
  }
  return marks;
}
