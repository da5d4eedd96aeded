/** Labels: a shape with room for one line of text, and a stitched border. */
import { defineMotif, type MotifTools } from '../contracts.js';
import { arcTo, line, offsetExactly, openPath, roundedPolygon, transform } from '../geom/index.js';
import type { Layer, Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { layer, mirrored, sizeParam } from './layers.js';
import { fitLine, lettered, letteringParams } from './lettered.js';
import { stitched, stitchParams } from './stitches.js';

/** A label's outline with the clear box inside it, both about the origin. */
interface LabelShape {
  readonly outline: Path;
  readonly room: { readonly width: number; readonly height: number };
}

/** Corners cut in by quarter circles, as on an admission ticket. */
function ticket(width: number, height: number, corner: number): LabelShape {
  const [x, y] = [width / 2, height / 2];
  const bite = (to: Point) => arcTo(to, -Math.PI / 2);
  const half = openPath(
    [0, -y],
    [
      line([x - corner, -y]),
      bite([x, corner - y]),
      line([x, y - corner]),
      bite([x - corner, y]),
      line([0, y]),
    ],
  );
  return { outline: mirrored(half), room: { width: width - corner, height: height - corner / 2 } };
}

/** How far the arcs of a bracket turn: less than a quarter, so that its tip is paper and not a
 *  hair. */
const BRACKET_TURN = (58 * Math.PI) / 180;

/** Ends drawn like a curly bracket: a shoulder, a waist, and a point half-way up. */
function bracket(width: number, height: number, corner: number): LabelShape {
  const [x, y] = [width / 2, height / 2];
  const reach = corner * (1 - Math.cos(BRACKET_TURN));
  const climb = corner * Math.sin(BRACKET_TURN);
  const side = x - reach;
  const tip: Segment[] = [
    line([side, -climb]),
    arcTo([x, 0], -BRACKET_TURN),
    arcTo([side, climb], -BRACKET_TURN),
  ];
  const half = openPath(
    [0, -y],
    [
      line([side - corner, -y]),
      arcTo([side, corner - y], Math.PI / 2),
      ...tip,
      line([side, y - corner]),
      arcTo([side - corner, y], Math.PI / 2),
      line([0, y]),
    ],
  );
  return { outline: mirrored(half), room: { width: 2 * side, height } };
}

function rounded(width: number, height: number, corner: number): LabelShape {
  const [x, y] = [width / 2, height / 2];
  const corners: Point[] = [
    [x, -y],
    [x, y],
    [-x, y],
    [-x, -y],
  ];
  return { outline: roundedPolygon(corners, corner), room: { width, height } };
}

/** The largest corner each shape takes, of the label's width and height. */
const SHAPES = {
  rounded: { draw: rounded, most: (w: number, h: number) => Math.min(w, h) / 2 },
  ticket: { draw: ticket, most: (w: number, h: number) => Math.min(w / 4, h / 3) },
  // Two shoulders and the tip's two arcs share the height.
  bracket: {
    draw: bracket,
    most: (w: number, h: number) => Math.min(w / 5, h / 2 / (1 + Math.sin(BRACKET_TURN))),
  },
} as const;

export const label = defineMotif({
  id: 'label',
  family: 'labels',
  summary: 'a label with a line of text and a stitched border',
  params: {
    size: sizeParam(70),
    height: { kind: 'length', default: 32, least: 8, most: 200, help: 'height of the label' },
    shape: {
      kind: 'choice',
      default: 'rounded',
      choices: ['rounded', 'ticket', 'bracket'],
      help: 'rounded corners, corners cut in like a ticket, or ends like a curly bracket',
    },
    corner: {
      kind: 'length',
      default: 5,
      least: 0,
      most: 60,
      help: 'radius of the corners',
    },
    ...letteringParams,
    ...stitchParams,
  },
  build(values, tools): readonly Layer[] {
    const { size, height, shape, corner, stitch, inset, stitchLength } = values;
    const form = SHAPES[shape as keyof typeof SHAPES];
    const most = form.most(size, height);
    if (!(corner <= most && (corner > 0 || shape === 'rounded'))) {
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
    const seam = border > 0 ? offsetExactly(outline, -border, 'mitre') : undefined;
    if (border > 0 && !seam) {
      throw new ParamError(
        'inset',
        inset,
        'the stitches do not fit inside the label there',
        'bring them nearer to the edge, or make the label or its corner larger',
      );
    }
    const strokes = stitched(seam, { stitch, stitchLength });
    return [addText(layer('front', outline, { strokes }), values, room, border, tools)];
  },
});

/** Air between the text and the stitches, as a part of the label's height. */
const AIR = 0.1;

function addText(
  front: Layer,
  values: Parameters<typeof label.build>[0],
  room: LabelShape['room'],
  border: number,
  tools: MotifTools,
): Layer {
  const { text, font, height } = values;
  if (text.trim() === '') return front;
  const air = 2 * (border + AIR * height);
  const box = { width: room.width - air, height: room.height - air };
  const { regions, at } = fitLine(tools, { text, font, textHeight: values.textHeight }, box);
  const move = (p: Path) => transform(p, at);
  const placed = regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) }));
  return lettered(front, placed, values);
}
