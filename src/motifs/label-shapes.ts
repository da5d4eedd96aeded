/** Outlines of labels, about the origin, each with the clear box inside it. */
import { arcTo, line, openPath, roundedPolygon } from '../geom/index.js';
import type { Path, Point, Segment } from '../model.js';
import { mirrored } from './layers.js';
import { ellipse } from './shapes.js';

export interface LabelShape {
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

/** Parts of an ornate corner: shoulders on both sides of a bite; and how far the middle of each edge
 *  swells past its ends, in two arcs that turn by `SWELL_TURN`. */
const SHOULDER = 0.2;
const SWELL = 0.34;
const SWELL_TURN = (42 * Math.PI) / 180;
/** Half the width of a swell over its height. */
const SWELL_REACH = Math.sin(SWELL_TURN) / (1 - Math.cos(SWELL_TURN));

/** A plaque: corners bitten between two shoulders, and a swell in the middle of every edge. */
function ornate(width: number, height: number, corner: number): LabelShape {
  const swell = SWELL * corner;
  const [x, y] = [width / 2 - swell, height / 2 - swell];
  const [s, bite] = [SHOULDER * corner, (1 - 2 * SHOULDER) * corner];
  const reach = swell * SWELL_REACH;
  const turn = SWELL_TURN;
  const lower: Segment[] = [
    arcTo([reach / 2, -y - swell / 2], turn),
    arcTo([reach, -y], -turn),
    line([x - corner, -y]),
    arcTo([x - corner + s, s - y], Math.PI / 2),
    arcTo([x - s, s + bite - y], -Math.PI / 2),
    arcTo([x, corner - y], Math.PI / 2),
    line([x, -reach]),
    arcTo([x + swell / 2, -reach / 2], -turn),
  ];
  const upper: Segment[] = [
    arcTo([x + swell / 2, reach / 2], 2 * turn),
    arcTo([x, reach], -turn),
    line([x, y - corner]),
    arcTo([x - s, y - s - bite], Math.PI / 2),
    arcTo([x - corner + s, y - s], -Math.PI / 2),
    arcTo([x - corner, y], Math.PI / 2),
    line([reach, y]),
    arcTo([reach / 2, y + swell / 2], -turn),
    arcTo([0, y + swell], turn),
  ];
  const half = openPath([0, -y - swell], [...lower, ...upper]);
  return { outline: mirrored(half), room: { width: 2 * x - 0.8 * corner, height: 2 * y - s } };
}

/** The box inside has 0.66 of its width and 0.75 of its height: its corners lie on the oval. */
const oval = (width: number, height: number): LabelShape => ({
  outline: ellipse([0, 0], height / 2, width / 2, -Math.PI / 2),
  room: { width: 0.66 * width, height: 0.75 * height },
});

/** The largest corner each shape takes, of the label's width and height. */
export const LABEL_SHAPES = {
  rounded: { draw: rounded, most: (w: number, h: number) => Math.min(w, h) / 2 },
  ticket: { draw: ticket, most: (w: number, h: number) => Math.min(w / 4, h / 3) },
  // Two shoulders and the tip's two arcs share the height.
  bracket: {
    draw: bracket,
    most: (w: number, h: number) => Math.min(w / 5, h / 2 / (1 + Math.sin(BRACKET_TURN))),
  },
  ornate: {
    draw: ornate,
    // Both shoulders of an edge, half of its swell, and the swells of the edges across.
    most: (w: number, h: number) => Math.min(w, h) / 2 / (1 + SWELL + SWELL * SWELL_REACH),
  },
  oval: { draw: oval, most: () => Number.POSITIVE_INFINITY },
} as const;
