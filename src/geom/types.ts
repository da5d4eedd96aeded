/**
 * The shapes everything is made of. Millimetres, y up; a counter-clockwise closed path has positive
 * area, and a counter-clockwise angle or arc is positive.
 */
export type Point = readonly [x: number, y: number];

export interface Line {
  readonly kind: 'line';
  readonly to: Point;
}

/** A circular arc. `bulge` = tan(sweep / 4), as in DXF: positive turns counter-clockwise, 1 is a
 *  half circle. A full circle is two arcs. */
export interface Arc {
  readonly kind: 'arc';
  readonly to: Point;
  readonly bulge: number;
}

export interface Cubic {
  readonly kind: 'cubic';
  readonly c1: Point;
  readonly c2: Point;
  readonly to: Point;
}

export type Segment = Line | Arc | Cubic;

/** A chain of segments. When `closed`, the last segment ends on `start`, to the bit. */
export interface Path {
  readonly start: Point;
  readonly segments: readonly Segment[];
  readonly closed: boolean;
}

/** An outline with its holes: the outer path counter-clockwise, the holes clockwise. */
export interface Region {
  readonly outer: Path;
  readonly holes: readonly Path[];
}

export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** x' = a x + c y + e, y' = b x + d y + f (the order of SVG's `matrix`). */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];
