import { defineStyle } from '../contracts.js';
import type { Inside } from '../model.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { newNet } from './build.js';
import { along, apart, type Corner3, inSpace, type Point3, toward } from './solid.js';

/** Flaps lean in by this at least (common practice, no source). */
const MITRE = radians(15);
/** The share of a face's corner that the flap on it takes up. */
const CORNER_SHARE = 0.85;
/** Seams lean in by this at least, so that two of them part in the flat. */
const SEAM_LEAN = radians(4);
/** What is left at the head of a flap, mm. */
const WEB = 1;
/** Less paper takes no glue, mm. */
const LEAST_FLAP = 1;
/** Faces that lean more than this, from upright, hold nothing. */
const FLATTEST = radians(80);
/** In the flat the corner under a short seam is hollow by twice this at the most: there the net
 *  would run into itself. Seams in this ratio are never so hollow, however low the pouch is. */
const HOLLOWEST = radians(60);
const RATIO = Math.tan(Math.PI / 4 + HOLLOWEST / 2);

/**
 * A tube pressed flat at the bottom along the length, at the top along the width: four triangles. Both
 * seams stand out, inner face on inner face, so the two faces at a seam are a thickness apart there.
 * The tube closes by a flap inside the front. The four slanted edges are scored only when asked for:
 * the paper curls over them.
 */
export const tetraPouch = defineStyle({
  id: 'tetra-pouch',
  summary: 'Pouch closed by two seams at right angles; length and width are the seams',
  tags: ['pouch', 'tetrahedron', 'fin seal', 'bent paper', 'ECMA group D?'],
  example: { length: 80, width: 80, height: 60 },
  room: { lies: false, insideFor: block => aroundBlock(block) },
  params: {
    edges: {
      kind: 'choice',
      default: 'curled',
      choices: ['curled', 'scored'],
      help: 'The four slanted edges: paper that curls over them by itself, or sharp scores.',
    },
    seam: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 40,
      help: 'Width of the two seams; auto is 8 mm, less on a small pouch.',
    },
    glue: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 60,
      help: 'Width of the flap that closes the tube; auto is 12 mm, less on a small pouch.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const soft = values.edges === 'curled';
    // How far front and back, and how far the sides, lean from upright.
    const [lean, sideLean] = [width, length].map(w => Math.atan2(w, 2 * height)) as [
      number,
      number,
    ];
    for (const [name, value, angle] of [
      ['width', width, lean],
      ['length', length, sideLean],
    ] as const) {
      const most = 2 * height * Math.tan(FLATTEST);
      if (angle > FLATTEST) atMost(name, value, most, 'or the pouch is too flat', 'make it higher');
    }
    // The section at a height, half of it: half a thickness outside the clear space.
    const y = (z: number) => t / (2 * Math.cos(lean)) + (width * z) / (2 * height);
    const x = (z: number) => t / (2 * Math.cos(sideLean)) + (length * (1 - z / height)) / 2;
    // Where the faces have come within a thickness of each other.
    const low = (-t / 2) * Math.tan(lean / 2);
    const high = height + (t / 2) * Math.tan(sideLean / 2);
    const at = (sx: number, sy: number, z: number): Point3 => [sx * x(z), sy * y(z), z];
    const [base, top] = [2 * x(low), 2 * y(high)];

    const edge = apart(at(1, -1, low), at(1, -1, high));
    const corner = Math.acos((x(low) - x(high)) / edge);
    const sideCorner = Math.acos((y(high) - y(low)) / edge);
    if (Math.abs(corner - sideCorner) > HOLLOWEST) {
      const [name, value, other] =
        length < width ? (['length', length, width] as const) : (['width', width, length] as const);
      atLeast(name, value, other / RATIO, 'in so low a pouch', 'make the seams more alike');
    }
    const bottomSeam = seamOf(base, corner - sideCorner);
    // The left face's seam begins later, inside the front's paper.
    const inset = t / Math.cos(lean);
    const topSeam = seamOf(top - inset, sideCorner - corner);
    const seam = auto(values.seam, 8, Math.min(bottomSeam.most, topSeam.most));
    for (const [name, side, { most, leaning }] of [
      ['length', length, bottomSeam],
      ['width', width, topSeam],
    ] as const) {
      const least = WEB + 2 * LEAST_FLAP * Math.tan(leaning) + inset;
      atLeast(name, side, least, 'or its seam runs to a point', 'make the pouch larger');
      atMost(
        'seam',
        seam,
        most,
        'where its ends meet',
        'make the seam narrower or the pouch larger',
      );
    }

    const net = newNet('pouch', 'Tetra pouch', t);
    const space = inSpace(net);
    const names = ['low', 'right', 'high', 'left'] as const;
    const face = (...corners: readonly Point3[]): Corner3[] =>
      corners.map((p, i) => ({ at: p, side: names[i]! }));
    const front = space.root(
      'front',
      'wall',
      face(at(1, -1, low), at(-1, -1, low), at(-1, -1, high), at(1, -1, high)),
      'low',
    );
    const right = space.fold(
      front,
      'left',
      'right',
      'wall',
      face(at(1, 1, low), at(1, -1, low), at(1, -1, high), at(1, 1, high)),
      'right',
      undefined,
      { soft },
    );
    const back = space.fold(
      right,
      'left',
      'back',
      'wall',
      face(at(-1, 1, low), at(1, 1, low), at(1, 1, high), at(-1, 1, high)),
      'right',
      undefined,
      { soft },
    );
    // The left face ends where the flap's plane, a thickness inside the front, cuts it.
    const [foot, head]: readonly [Point3, Point3] = [
      at(-1, 1, 0),
      [-x(high), inset - y(high), high],
    ];
    const left = space.fold(
      back,
      'left',
      'left',
      'wall',
      [
        { at: foot, side: 'right' },
        { at: at(-1, 1, high), side: 'high' },
        { at: head, side: 'left' },
      ],
      'right',
      undefined,
      { soft },
    );
    const flap = space.fold(left, 'left', 'glue-flap', 'glue-flap', closing(), 'hinge', undefined, {
      soft,
    });
    net.glue(flap.face, front.face);

    const [f, b, l, r] = [
      space.fold(
        front,
        'low',
        'front-seam',
        'glue-flap',
        fin(at(-1, -1, low), at(1, -1, low), -1),
        'hinge',
      ),
      space.fold(
        back,
        'low',
        'back-seam',
        'glue-flap',
        fin(at(1, 1, low), at(-1, 1, low), -1),
        'hinge',
      ),
      space.fold(left, 'high', 'left-seam', 'glue-flap', fin(head, at(-1, 1, high), 1), 'hinge'),
      space.fold(
        right,
        'high',
        'right-seam',
        'glue-flap',
        fin(at(1, 1, high), at(1, -1, high), 1),
        'hinge',
      ),
    ];
    net.glue(f.face, b.face);
    net.glue(l.face, r.face);
    return [net.done(space.up())];

    /** Where the flat net is hollow beside a seam, its ends lean in as much as that asks. */
    function seamOf(long: number, hollow: number) {
      const leaning = SEAM_LEAN + Math.max(0, hollow);
      return { leaning, most: (long - WEB) / (2 * Math.tan(leaning)) };
    }

    /** A seam that stands up or down from its fold, whose ends lean in. */
    function fin(from: Point3, to: Point3, up: 1 | -1): Corner3[] {
      const { leaning } = up === 1 ? topSeam : bottomSeam;
      const run = toward(from, to);
      const far = (p: Point3, s: number): Point3 => along([p[0], p[1], p[2] + up * seam], run, s);
      const into = seam * Math.tan(leaning);
      return [
        { at: from, side: 'hinge' },
        { at: to },
        { at: far(to, -into) },
        { at: far(from, into) },
      ];
    }

    function closing(): Corner3[] {
      const run = toward(foot, head);
      const level: Point3 = [1, 0, 0];
      const across = toward([0, 0, 0], along(level, run, -run[0]));
      const long = apart(foot, head);
      // The front's corners: at the bottom, and the one at the top of an isosceles triangle.
      const [bottom, tip] = [corner, Math.PI - 2 * corner];
      const mitre = (angle: number) => Math.max(MITRE, Math.PI / 2 - CORNER_SHARE * angle);
      // Two faces meet at an angle whose cosine is the product of the sines of their leans. So much
      // further in, in thicknesses, the flap lies over the front than its fold.
      const meeting = Math.sin(lean) * Math.sin(sideLean);
      const over = meeting / Math.sqrt(1 - meeting * meeting);
      const within = (angle: number, by: number) =>
        by / Math.sin(angle) + Math.max(0, over / Math.tan(angle));
      // The fold begins in the back's paper, so far below the front's lower edge.
      const below = (1 / Math.cos(lean) - 2 * Math.cos(lean) + 1) / (2 * Math.sin(lean));
      const [atFoot, atHead] = [within(bottom, 1 + below), within(tip, 1.5)];
      const [from, to] = [0.5 + t * atFoot, long - 0.5 - t * atHead];
      const [m0, m1] = [Math.tan(mitre(bottom)), Math.tan(mitre(tip))];
      const most = (to - from - WEB) / (m0 + m1);
      atMost(
        'thickness',
        t,
        (long - 1 - WEB - LEAST_FLAP * (m0 + m1)) / (atFoot + atHead),
        'or the flap that closes the tube has no room',
        'use thinner paper, or make the pouch larger',
      );
      const deep = auto(values.glue, 12, most);
      atMost('glue', deep, most, 'where its mitres do not meet', 'make the flap narrower');
      const p = (s: number, d: number): Point3 => along(along(foot, run, s), across, d);
      return [
        { at: p(from, 0), side: 'hinge' },
        { at: p(to, 0) },
        { at: p(to - deep * m1, deep) },
        { at: p(from + deep * m0, deep) },
      ];
    }
  },
});

/** A quarter of the way up the section is a quarter of the top seam by three quarters of the bottom
 *  one; three quarters up it is the other way round. */
const aroundBlock = ({ length, width, height }: Inside): Inside => ({
  length: 4 * length,
  width: 4 * width,
  height: 2 * height,
});
