/** Walls of curled paper: strips with teeth along one edge, which are folded in and glued to a flat
 *  piece. */
import type { Bend, EdgeRef, Net, Path, Point, Stands } from '../model.js';
import type { ParamTable } from '../params.js';
import { CLOSE_MM, LEAST_WIDTH_MM } from '../units/tolerances.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import { type NetBuilder, newNet, part } from './build.js';
import { flap, rect, type Shape } from './shapes.js';

/** Teeth lean in by this at least: common practice, no source. */
export const LEAN = radians(12);
/** And by this more than a radius does, so that they do not touch when folded in. */
const CLEAR = radians(3);
/** More teeth on one curl than anybody folds. */
const MOST_TEETH = 120;

export const TEETH_PARAMS = {
  tooth: {
    kind: 'length',
    default: 'auto',
    least: 2,
    most: 40,
    help: 'Width of the teeth that hold a wall, about; auto is 6 mm. Narrower where it curls tightly.',
  },
  depth: {
    kind: 'length',
    default: 'auto',
    least: 1,
    most: 30,
    help: 'Depth of the teeth; auto is 8 mm, less where they would run to a point.',
  },
} as const satisfies ParamTable;

export interface AskedTeeth {
  readonly tooth: number | 'auto';
  readonly depth: number | 'auto';
}

export interface Teeth {
  readonly count: number;
  readonly width: number;
  readonly depth: number;
  /** Angle by which their sides lean in, radians. */
  readonly lean: number;
}

/** Teeth for a stretch of wall of that length, curled to that radius. */
export function teethFor(length: number, radius: number, asked: AskedTeeth): Teeth {
  // A tooth keeps its foot straight: the arc over it is longer, by w³ / 24 R².
  const widest = 0.9 * Math.cbrt(24 * CLOSE_MM * radius * radius);
  const least = length / MOST_TEETH;
  const tooth = auto(asked.tooth, Math.max(6, least));
  atLeast('tooth', tooth, least, `or there are more than ${MOST_TEETH}`, 'make the teeth wider');
  const count = Math.max(1, Math.ceil(length / Math.min(tooth, widest)));
  const width = length / count;
  const lean = Math.max(LEAN, width / radius / 2 + CLEAR);
  const most = Math.min((width - LEAST_WIDTH_MM) / (2 * Math.tan(lean)), radius / 2);
  const depth = atMost(
    'depth',
    auto(asked.depth, 8, most),
    most,
    'where the teeth run to a point',
    'make the teeth less deep, or wider',
  );
  return { count, width, depth, lean };
}

/** Teeth side by side along an edge from a place on it, each glued onto the flat piece of another
 *  net. */
export function toothed(
  net: NetBuilder,
  edge: EdgeRef,
  from: number,
  { count, width, depth, lean }: Teeth,
  onto: { readonly net: string; readonly panel: string },
  name = 'tooth',
): void {
  for (let i = 0; i < count; i++) {
    const foot = part(edge, from + i * width, from + (i + 1) * width);
    const tooth = net.fold(foot, `${name}-${i + 1}`, 'glue-flap', w =>
      flap(w, depth, { mitre: lean }),
    );
    net.seat(tooth, onto.net, onto.panel);
  }
}

/** A strip that stands on its teeth and curls from left to right. */
export function strip(tall: number, stretches: Bend['stretches']): Shape {
  const whole = stretches.reduce((sum, s) => sum + s.length, 0);
  return { ...rect(whole, tall), bend: { from: [0, 0], across: [1, 0], stretches } };
}

/** What lies inside the beginning of a strip as its other end: a lap that curls on, hinged by its
 *  foot. */
export function lap(width: number, deep: number, radius: number): Shape {
  const stretches = [{ length: deep, turn: deep / radius }];
  return { ...rect(width, deep), bend: { from: [0, 0], across: [0, 1], stretches } };
}

export const CURLED_PARAMS = {
  lidHeight: {
    kind: 'length',
    default: 'auto',
    least: 5,
    most: 2000,
    help: 'How far the lid reaches down; auto is a third of the height, 12 mm at least.',
  },
  ease: {
    kind: 'length',
    default: 'auto',
    least: 0,
    most: 3,
    help: 'Room between lid and base on each side; auto is one paper thickness, 0.25 to 0.5 mm.',
  },
  ...TEETH_PARAMS,
  lap: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'How far the ends of a wall lie over each other; auto is 12 mm, less on a small box.',
  },
  lining: {
    kind: 'flag',
    default: true,
    help: 'A second flat piece inside base and lid, over the teeth.',
  },
} as const satisfies ParamTable;

/** How much smaller than the clear space its lining is, on each side, mm: to lay it in. */
export const LAID_IN_MM = 0.25;

/** An outline, and where the middle of its bounds is in the box. */
export interface FlatPiece {
  readonly outline: Path;
  readonly at?: Point;
}

export interface CurledTray {
  readonly id: 'base' | 'lid';
  readonly title: string;
  readonly t: number;
  /** Clear height, and for a lid the height on the table at which its clear space ends. */
  readonly tall: number;
  readonly top: number;
  readonly flat: FlatPiece;
  readonly lining?: FlatPiece;
  /** The panel of the flat piece. */
  readonly panel: string;
  /** Builds the wall, `height` mm high from the fold of its teeth; its root stands as said. */
  wall(net: NetBuilder, height: number): Pick<Stands, 'at' | 'turn'>;
}

/** From the middle of the flat piece to the face on which things stand. */
export const floorOf = (lining: boolean, t: number): number => t + (lining ? 1.5 * t : t / 2);

/** A flat piece, the wall whose teeth lie on it, and a lining over them; a lid is upside down. */
export function curledTray(tray: CurledTray): Net[] {
  const { id, title, t, tall, top, panel, lining } = tray;
  const isLid = id === 'lid';
  // Upside down about x, and turned half round: left for right.
  const up = isLid ? -1 : 1;
  const floor = floorOf(lining !== undefined, t);
  /** The height of a layer, so many thicknesses from the flat piece toward the inside. */
  const level = (n: number) => (isLid ? top + floor - n * t : n * t);

  const flat = newNet(id, title, t);
  flat.root(panel, isLid ? 'lid' : 'base', { outline: tray.flat.outline, sides: {} });
  const wall = newNet(`${id}-wall`, `${title}: wall`, t);
  const stands = tray.wall(wall, tall + floor - t);
  const place = ({ at }: FlatPiece, n: number): Stands => ({
    ...(at && { at }),
    height: level(n),
    turn: isLid ? Math.PI : 0,
  });
  const nets = [
    flat.done([0, 0, up], place(tray.flat, 0)),
    wall.done([0, up, 0], { ...stands, height: isLid ? top - tall : level(1) }),
  ];
  if (!lining) return nets;
  const inside = newNet(`${id}-lining`, `${title}: lining`, t);
  const shape = { outline: lining.outline, sides: {} };
  inside.seat(inside.root('lining', 'insert', shape), id, panel, 2 * t);
  return [...nets, inside.done([0, 0, up], place(lining, 2))];
}
