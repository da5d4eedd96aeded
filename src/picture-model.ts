/** What pictures of folded boxes are told beside their parts. Millimetres; y up. */
import type { Path, Point } from './geom/types.js';

/** How the light lies on a part, where more is told than its angle. */
export interface Lit {
  /** Of a strip of curled paper: from one joint to the other the light changes evenly. */
  readonly turning?: {
    readonly from: Point;
    readonly to: Point;
    readonly lights: readonly [number, number];
  };
  /** The height over the table of what is seen at (x, y): a·x + b·y + c, mm. */
  readonly height: readonly [a: number, b: number, c: number];
  /** What falls on it: loops by the winding rule, once for each of the points of a broad lamp. */
  readonly shadows: readonly (readonly (readonly Point[])[])[];
}

/** Film glued behind a panel's window; its outline in the net's frame. */
export interface Film {
  readonly net: string;
  readonly panel: string;
  readonly side: 'inside' | 'outside';
  readonly outline: Path;
}

/** What else is seen on the paper of a folded box: cuts in it, rows of perforation, pen lines, dots. */
export interface FaceMark {
  readonly net: string;
  readonly panel: string;
  readonly side: 'inside' | 'outside';
  readonly kind: 'slit' | 'perforation' | 'crease' | 'pen' | 'hook-and-loop' | 'sticker' | 'magnet';
  /** In the net's frame. */
  readonly path: Path;
}
