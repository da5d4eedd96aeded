/** The open tray on a polygon: a wall on each side, glued to the next by a tab inside it. */
import type { ParamTable } from '../params.js';
import { atLeast, atMost, auto, radians } from './bounds.js';
import type { NetBuilder } from './build.js';
import { facing, meetingOf, polygonAt, turnOf } from './ngon.js';
import { apart, type Corner3, inSpace, type Point3, stretch } from './solid.js';

export const NGON_TAB_PARAM = {
  tab: {
    kind: 'length',
    default: 'auto',
    least: 3,
    most: 60,
    help: 'Depth of the tabs between the walls of base and lid; auto is 10 mm, less on small walls.',
  },
} as const satisfies ParamTable;

const MITRE = radians(15);
/** In the flat a tab keeps this far, as an angle, from the wall that it will be glued to. */
const APART = radians(2);
/** The narrowest head of a tab that still takes glue, and what a tab leaves free of its wall, mm. */
const HEAD = 2;

/** A tab that is less deep takes no glue, mm. */
const LEAST_TAB = 1;

/** From the clear space out to the walls' middle: half of the wall, and the tab inside it. */
const TRAY_LAYERS = 1.5;
/** From the clear space out to the outer face. */
export const TRAY_OUTSIDE = TRAY_LAYERS + 0.5;

/** Walls `height` above a floor with room for a round of `diameter`; its clear space begins at z = 0. */
export function ngonTray(
  net: NetBuilder,
  size: {
    readonly sides: number;
    readonly diameter: number;
    readonly height: number;
    readonly t: number;
  },
  tab: number | 'auto',
): void {
  const { sides, diameter, height, t } = size;
  const radius = diameter / 2 + TRAY_LAYERS * t;
  const [low, high] = [-t / 2, height];
  const inner = 2 * (radius - t) * Math.tan(turnOf(sides) / 2);
  // The next wall leaves the base's corner at an angle to the tab's hinge.
  const steep = Math.tan(Math.max(MITRE, Math.PI / 2 - turnOf(sides) + APART));
  atLeast(
    'length',
    inner,
    HEAD + LEAST_TAB,
    'the narrowest wall that takes a tab',
    'make the box wider, its sides fewer or the paper thinner',
  );
  const depth = tabDepth();

  const space = inSpace(net);
  const corners = polygonAt(sides, () => radius, low);
  const base = space.root(
    'base',
    'base',
    corners.map((at, k) => ({ at, side: String(k) })),
    String(sides >> 1),
  );
  /** The left end of wall k − 1: it reaches to the outer face of wall k, over the tab's fold. */
  const corner = (k: number, z: number): Point3 => [
    ...meetingOf(facing(sides, k - 1), radius, facing(sides, k), radius + t / 2),
    z,
  ];
  /** The right end of wall k: where its surface cuts that of its tab, inside wall k − 1. */
  const cut = (k: number, z: number): Point3 => [
    ...meetingOf(facing(sides, k - 1), radius - t, facing(sides, k), radius),
    z,
  ];
  const walls = corners.map((_, k) => {
    const wall: Corner3[] = [
      { at: corner(k + 1, low), side: 'low' },
      { at: cut(k, low), side: 'right' },
      { at: cut(k, high), side: 'high' },
      { at: corner(k + 1, high), side: 'left' },
    ];
    return space.fold(base, String(k), `wall-${k + 1}`, 'wall', wall, 'low');
  });
  walls.forEach((wall, k) => {
    const before = walls[(k + sides - 1) % sides]!;
    const a = facing(sides, k - 1);
    // Along the wall before, away from the corner.
    const out = (z: number): Point3 => {
      const p = cut(k, z);
      return [p[0] + depth * Math.sin(a), p[1] - depth * Math.cos(a), z];
    };
    const made = space.fold(
      wall,
      'right',
      `tab-${k + 1}`,
      'glue-flap',
      [
        { at: cut(k, low + t), side: 'low' },
        { at: out(low + t + depth * steep), side: 'head' },
        { at: out(high - depth * Math.tan(MITRE)), side: 'high' },
        { at: cut(k, high), side: 'hinge' },
      ],
      'hinge',
    );
    net.glue(made.face, before.face);
    net.meet(
      stretch(wall, 'right', cut(k, low), cut(k, high)),
      stretch(before, 'left', corner(k, low), corner(k, high)),
      apart(corner(k, low), cut(k, low)),
    );
  });

  function tabDepth(): number {
    const foot = height - t / 2;
    atLeast(
      'height',
      height,
      HEAD + 1 + t,
      'or the tabs have nothing to hold on',
      'make the box higher',
    );
    const most = Math.min(inner - HEAD, (foot - HEAD) / (steep + Math.tan(MITRE)));
    return atMost(
      'tab',
      auto(tab, 10, Math.min(most, 0.6 * inner)),
      most,
      'which its wall has room for',
      'make the tabs smaller, or the box wider or higher',
    );
  }
}
