import { defineStyle } from '../contracts.js';
import { ParamError } from '../params.js';
import { CLOSE_MM } from '../units/tolerances.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { meetingOf } from './ngon.js';
import { along, apart, type Corner3, inSpace, type Point3, stretch, toward } from './solid.js';

/** Tabs and tuck flaps lean in by this (common practice, no source). */
const MITRE = radians(15);
/** What is left at the head of a flap, mm. */
const WEB = 2;
/** Half of the angle at the tip. Sharper, and half an inch from the tip the walls are 1.1 mm apart: the tab
 *  there cannot be pressed on. A ring of three has 60°: nobody needs a blunter one. */
const SHARPEST = radians(2.5);
const BLUNTEST = radians(61);
/** As the lid turns in, the corners of its tuck flaps at its hinge stand out past the walls, which part
 *  from there to the tip: the blunter it is, the more. From here on those ends lean away as much further.
 *  With 15° some flaps of 3 mm found no way in at 55°; with 30° all that were tried did, up to 60°. */
const UPRIGHT = radians(25);
/** In the flat the tab at a blunt tip leans away from the other wall by so much more. */
const CLEAR = radians(3);

/**
 * A wedge with its tip in front. Tabs inside the back and inside the right wall hold the walls; the
 * lid hangs on the back and tucks in behind both side walls. The clear space lies within tabs and
 * tuck flaps, so all walls stand as far out; their outer faces make the same angle as the inside.
 */
export const slice = defineStyle({
  id: 'slice',
  summary: 'Wedge like a slice of cake; length is from tip to back, width at the back',
  tags: ['wedge', 'one piece', 'tuck lid', 'ECMA group D?'],
  example: { length: 90, width: 74.5585, height: 45 },
  // In the middle: a quarter of the way from the tip the wedge is a quarter as wide as at its back.
  room: {
    lies: false,
    insideFor: ({ length, width, height }) => ({ length: 2 * length, width: 4 * width, height }),
  },
  params: {
    ring: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 36,
      help: 'So many slices close into a round: the width must suit it. 0 is any wedge.',
    },
    tab: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 60,
      help: 'Depth of the glue tabs; auto is half an inch, less on a small slice.',
    },
    tuck: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 100,
      help: 'Depth of the two tuck flaps of the lid; auto is two fifths of the height, 15 mm at most.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const half = tipAngle() / 2;
    // Which way the walls face, seen from above, and how far they are from the inner tip.
    const [left, right, back] = [Math.PI + half, -half, Math.PI / 2];
    const out = 1.5 * t;
    /** The meeting of the planes of two walls, each moved inward by so much. */
    const corner = (a: number, da: number, b: number, db: number, z: number): Point3 => {
      const off = (w: number, d: number) => (w === back ? length : 0) + out - d;
      return [...meetingOf(a, off(a, da), b, off(b, db)), z];
    };
    const top = height + t;
    // Of the lid: from its tip to where its tuck flaps end, two thicknesses before the back.
    const leg =
      apart(corner(left, t, right, t, 0), corner(left, t, back, 0, 0)) - (2 * t) / Math.cos(half);
    const tipMitre = Math.max(MITRE, 2 * half - Math.PI / 2 + CLEAR);
    const backMitre = Math.max(MITRE, half - UPRIGHT);
    const { tab, tuck, start } = flaps();

    const net = newNet('slice', 'Slice', t);
    const space = inSpace(net);
    const base = space.root(
      'base',
      'base',
      [
        { at: corner(left, 0, right, 0, 0), side: 'right' },
        { at: corner(right, 0, back, 0, 0), side: 'back' },
        { at: corner(back, 0, left, 0, 0), side: 'left' },
      ],
      'back',
    );
    const upright = (
      a: Point3,
      b: Point3,
      names: readonly [string, string, string, string],
    ): Corner3[] => {
      const raised = (p: Point3): Point3 => [p[0], p[1], top];
      return [a, b, raised(b), raised(a)].map((at, i) => ({ at, side: names[i]! }));
    };
    const names = ['low', 'right', 'high', 'left'] as const;
    const backWall = space.fold(
      base,
      'back',
      'back',
      'wall',
      upright(corner(left, 0, back, 0, 0), corner(right, 0, back, 0, 0), names),
      'low',
    );
    // The left wall ends where its tab lies inside the right one; both end where theirs lie inside
    // the back.
    const leftWall = space.fold(
      base,
      'left',
      'left',
      'wall',
      upright(corner(left, 0, right, t, 0), corner(left, 0, back, t, 0), names),
      'low',
    );
    const rightWall = space.fold(
      base,
      'right',
      'right',
      'wall',
      upright(corner(right, 0, back, t, 0), corner(right, 0, left, 0, 0), names),
      'low',
    );
    for (const [wall, side, way, facing, onto] of [
      [leftWall, 'right', 1, back, backWall],
      [rightWall, 'left', -1, back, backWall],
      [leftWall, 'left', -1, right, rightWall],
    ] as const) {
      const at =
        facing === right
          ? corner(left, 0, right, t, 0)
          : corner(wall === leftWall ? left : right, 0, back, t, 0);
      const made = space.fold(
        wall,
        side,
        `${wall.face.id}-${onto.face.id}-tab`,
        'glue-flap',
        tabFrom(at, facing, way),
        'hinge',
      );
      net.glue(made.face, onto.face);
    }
    for (const [wall, facing, side, other] of [
      [leftWall, left, 'right', 'left'],
      [rightWall, right, 'left', 'right'],
    ] as const) {
      const upTo = (d: number): [Point3, Point3] => [
        corner(facing, 0, back, d, 0),
        corner(facing, 0, back, d, top),
      ];
      net.meet(
        stretch(wall, side, ...upTo(t)),
        stretch(backWall, other, ...upTo(0)),
        t / Math.cos(half),
      );
    }

    const tip = corner(left, t, right, t, top);
    const lid = space.fold(
      backWall,
      'high',
      'lid',
      'lid',
      [
        { at: tip, side: 'left' },
        { at: corner(left, t, back, 0, top), side: 'back' },
        { at: corner(right, t, back, 0, top), side: 'right' },
      ],
      'back',
    );
    for (const [wall, facing, side, way] of [
      [leftWall, left, 'left', 1],
      [rightWall, right, 'right', -1],
    ] as const) {
      const made = space.fold(lid, side, `${side}-tuck`, 'tuck-flap', tuckOn(facing, way), 'hinge');
      net.tuck(made.face, wall.face);
    }
    return [net.done(space.up())];

    function tipAngle(): number {
      const { ring } = values;
      if (ring === 0) {
        const wide = 2 * length * Math.tan(SHARPEST);
        atLeast('width', width, wide, 'or the tip is too sharp to glue', 'make the slice wider');
        const most = 2 * length * Math.tan(BLUNTEST);
        atMost('width', width, most, 'or the tip is too blunt', 'make the slice longer');
        return 2 * Math.atan2(width, 2 * length);
      }
      if (ring < 3) {
        throw new ParamError('ring', ring, '0, or 3 to 36 slices', 'ask for three slices or more');
      }
      const asked = 2 * length * Math.tan(Math.PI / ring);
      if (!(Math.abs(width - asked) <= CLOSE_MM)) {
        throw new ParamError(
          'width',
          width,
          `${Number(asked.toFixed(3))} mm, 2 × length × tan(180° / ${ring}): that closes the ring`,
          'give that width, another ring, or ring 0 for any wedge',
        );
      }
      return (2 * Math.PI) / ring;
    }

    function flaps() {
      const wall = height - t;
      atLeast(
        'height',
        wall,
        WEB + 1,
        'or the tabs have nothing to hold on',
        'make the slice higher',
      );
      const tabMost = Math.min(
        (wall - WEB) / (Math.tan(MITRE) + Math.tan(tipMitre)),
        leg / 4,
        // In the flat the back tabs stand beside the back, below the lid's flaps.
        height,
        width / 2 - t - WEB / 2,
      );
      const tab = auto(values.tab, 12.7, tabMost);
      atMost(
        'tab',
        tab,
        tabMost,
        'the height, half of the back, a quarter of the side, and where its mitres do not meet',
        'make the tabs smaller, or the slice larger',
      );
      // Behind the tip the tuck flaps are clear of the tab there, and of each other.
      const apartAt = 2 / Math.sin(Math.min(2 * half, Math.PI / 2));
      atMost(
        'thickness',
        t,
        (leg - tab - WEB - 1.5) / (apartAt + 1),
        'or the lid has no room for its tuck flaps',
        'use thinner paper, or make the slice larger',
      );
      const start = Math.max(tab + 0.5, apartAt * t);
      const tuckMost = Math.min(
        height - WEB,
        (leg - start - WEB) / (Math.tan(MITRE) + Math.tan(backMitre)),
      );
      const tuck = auto(values.tuck, Math.min(0.4 * height, 15), tuckMost);
      atMost(
        'tuck',
        tuck,
        tuckMost,
        'less than the height, and where its mitres do not meet',
        'make the tuck flaps less deep',
      );
      return { tab, tuck, start };
    }

    /** A tab that runs from an upright hinge along the inside of a wall; `way` 1 to the right as seen
     *  from the inside. Its ends are clear of base and lid. */
    function tabFrom(at: Point3, facing: number, way: 1 | -1): Corner3[] {
      const run: Point3 = [way * Math.sin(facing), -way * Math.cos(facing), 0];
      const mitre = tab * Math.tan(MITRE);
      const under = tab * Math.tan(facing === back ? MITRE : tipMitre);
      const [low, high] = [t, top - t];
      const p = (s: number, z: number): Point3 => along([at[0], at[1], z], run, s);
      const round = Math.min(2, tab / 4, (high - low - mitre - under) / 4);
      const [a, b, c, d] = [p(0, low), p(tab, low + under), p(tab, high - mitre), p(0, high)];
      return way === 1
        ? [{ at: a }, { at: b, round }, { at: c, round }, { at: d, side: 'hinge' }]
        : [{ at: b, round }, { at: a, side: 'hinge' }, { at: d }, { at: c, round }];
    }

    /** A tuck flap hanging from a leg of the lid, from `start` behind the tip to before the back. */
    function tuckOn(facing: number, way: 1 | -1): Corner3[] {
      const end = corner(facing, t, back, 2 * t, top);
      const run = toward(tip, end);
      const from = along(tip, run, start);
      const [mitre, behind] = [tuck * Math.tan(MITRE), tuck * Math.tan(backMitre)];
      const down = (p: Point3, s: number): Point3 => along([p[0], p[1], top - tuck], run, s);
      const round = Math.min(4, tuck / 4, (apart(from, end) - mitre - behind) / 4);
      const low = [down(from, mitre), down(end, -behind)] as const;
      return way === 1
        ? [{ at: low[0], round }, { at: low[1], round }, { at: end, side: 'hinge' }, { at: from }]
        : [{ at: low[1], round }, { at: low[0], round }, { at: from, side: 'hinge' }, { at: end }];
    }
  },
});
