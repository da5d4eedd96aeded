/** Papers strewn with little printed motifs. */

import { definePattern, type Motif, type MotifTools } from '../../contracts.js';
import { bounds, circle, compose, rotation, scaling, translation } from '../../geom/index.js';
import type { Layer, ParamValues, Point } from '../../model.js';
import { fillParams } from '../../params.js';
import { bee, butterfly } from '../crawlers.js';
import { blossom, daisy } from '../flowers.js';
import { apple, pear } from '../fruit.js';
import { leaf, sprig } from '../greenery.js';
import { acorn, mushroom, oakLeaf } from '../harvest.js';
import { slimHeart } from '../heart-kinds.js';
import { heart } from '../hearts.js';
import { between, seeded } from '../random.js';
import { cloud, drop, moon, sun } from '../sky.js';
import { coats } from './fills.js';
import { inkOf, tintOf } from './inks.js';
import { moved, type Painted, type Repeat, shapeOf, startIn, tiled } from './repeats.js';
import { apart, Boxes, type Tile } from './torus.js';
import { poissonDisc, voronoiCells } from './voronoi.js';

/** A motif of a theme: its own ink, its size beside the others', and how far it may turn, degrees. */
interface Sort {
  readonly motif: Motif;
  readonly ink: number;
  readonly size?: number;
  readonly turn?: number;
  readonly values?: ParamValues;
}
const sort = (motif: unknown, ink: number, more: Omit<Sort, 'motif' | 'ink'> = {}): Sort => ({
  motif: motif as Motif,
  ink,
  ...more,
});

const THEMES: Readonly<Record<string, readonly Sort[]>> = {
  orchard: [
    sort(apple, 0, { turn: 22 }),
    sort(pear, 1, { turn: 22 }),
    sort(leaf, 2, { turn: 180, size: 0.8, values: { veins: 0 } }),
  ],
  forest: [
    sort(acorn, 1, { turn: 40 }),
    sort(mushroom, 0, { turn: 18 }),
    sort(oakLeaf, 2, { turn: 180, size: 1.05 }),
  ],
  meadow: [
    sort(bee, 1, { turn: 30 }),
    sort(daisy, 0, { turn: 180, size: 0.9 }),
    sort(butterfly, 0, { turn: 35 }),
    sort(sprig, 2, { turn: 180, size: 1.05 }),
  ],
  hearts: [
    sort(heart, 0, { turn: 28 }),
    sort(heart, 1, { turn: 28, size: 0.62 }),
    sort(slimHeart, 0, { turn: 28, size: 0.9 }),
  ],
  blossoms: [
    sort(blossom, 0, { turn: 180 }),
    sort(blossom, 1, { turn: 180, size: 0.66 }),
    sort(leaf, 2, { turn: 180, size: 0.62, values: { veins: 0 } }),
  ],
  sprigs: [sort(sprig, 2, { turn: 180, size: 1.1 }), sort(leaf, 0, { turn: 180, size: 0.85 })],
  weather: [
    sort(sun, 1, { turn: 20 }),
    sort(cloud, 0, { turn: 6 }),
    sort(drop, 2, { turn: 12, size: 0.62 }),
    sort(moon, 1, { turn: 25, size: 0.85 }),
  ],
};

/** What each paper of a figure is printed in: its own ink, a tint of it, the ground, or another ink. */
function colourOf(paper: string, own: number, palette: readonly string[]): string {
  switch (paper) {
    case 'main':
    case 'ray':
      return inkOf(palette, own);
    case 'shine':
    case 'pale':
    case 'inner':
    case 'gill':
    case 'wing':
    case 'foot':
    case 'disc':
      return tintOf(palette, own, 0.45);
    case 'leaf':
    case 'stem':
    case 'cap':
    case 'stripe':
    case 'body':
    case 'eye':
      return inkOf(palette, own === 2 ? 0 : 2);
    case 'centre':
    case 'cheek':
    case 'star':
      return inkOf(palette, own === 1 ? 0 : 1);
    default:
      return palette[0]!;
  }
}

/** Strewn motifs write nothing. */
const unlettered = () => {
  throw new Error('a strewn motif has no letters');
};
const TOOLS: MotifTools = { letter: unlettered, set: unlettered, seeded };

/** A print of a sort about the origin, in a circle of diameter 1. What is smaller than a share of it
 *  is left out: it would be a speck. */
const SPECK = 0.05;

function printOf({ motif, ink, values }: Sort, palette: readonly string[]): Painted[] {
  const layers = motif.build(fillParams(motif.params, values ?? {}), TOOLS);
  const b = bounds(...layers.map(l => l.outline));
  const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  const radius = Math.max(...layers.map(l => reachOf(l, middle)));
  const map = compose(scaling(0.5 / radius), translation(-middle[0], -middle[1]));
  return layers
    .filter(l => widthOf(l) > SPECK * radius)
    .map(
      (l): Painted => [
        colourOf(l.paper, ink, palette),
        moved({ outer: l.outline, holes: l.holes }, map),
      ],
    );
}

const widthOf = ({ outline }: Layer) => {
  const b = bounds(outline);
  return Math.max(b.maxX - b.minX, b.maxY - b.minY);
};
/** How far an outline goes from a point: its ends and control points, which hold it in. */
function reachOf({ outline }: Layer, [x, y]: Point): number {
  const far = (p: Point) => Math.hypot(p[0] - x, p[1] - y);
  return Math.max(
    far(outline.start),
    ...outline.segments.flatMap(s =>
      s.kind === 'cubic' ? [far(pull(s.c1, s.to)), far(pull(s.c2, s.to)), far(s.to)] : [far(s.to)],
    ),
  );
}
/** A curve goes at most three quarters of the way to its control points. */
const pull = (c: Point, to: Point): Point => [
  0.75 * c[0] + 0.25 * to[0],
  0.75 * c[1] + 0.25 * to[1],
];

/** Motifs along the side of a tile. */
const ACROSS = 8;
const scatterTile = (spacing: number): Tile => ({
  width: ACROSS * spacing,
  height: ACROSS * spacing,
});
const tileRepeat = ({ width, height }: Tile): Repeat => [
  [width, 0],
  [0, height],
];

/** Rounds in which every place may change its kind. */
const ROUNDS = 6;

/** Which kind goes where, so that likes are far from each other: place after place takes the kind of
 *  which there is least nearby, over and over. */
function kindsFor(places: readonly Point[], count: number, tile: Tile): number[] {
  const kinds = places.map((_, i) => i % count);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [n, place] of places.entries()) {
      const push = Array.from({ length: count }, () => 0);
      for (const [i, other] of places.entries()) {
        if (i !== n) push[kinds[i]!]! += 1 / apart(place, other, tile) ** 3;
      }
      kinds[n] = push.indexOf(Math.min(...push));
    }
  }
  return kinds;
}

export const scatter = definePattern({
  id: 'scatter',
  summary: 'little motifs strewn evenly, none touching another',
  params: {
    theme: {
      kind: 'choice',
      default: 'orchard',
      choices: ['orchard', 'forest', 'meadow', 'hearts', 'blossoms', 'sprigs', 'weather'],
      help: 'which motifs',
    },
    spacing: {
      kind: 'length',
      default: 19,
      least: 5,
      most: 100,
      help: 'least distance of their middles',
    },
    fill: {
      kind: 'number',
      default: 0.92,
      least: 0.3,
      most: 1,
      help: 'size of the motifs, as a share of the spacing',
    },
    pins: {
      kind: 'length',
      default: 1.3,
      least: 0,
      most: 8,
      help: 'diameter of the dots in the gaps; 0 leaves them out',
    },
  },
  repeat: ({ spacing }) => tileRepeat(scatterTile(spacing)),
  build({ theme, spacing, fill, pins }, area, palette, random) {
    const tile = scatterTile(spacing);
    const repeat = tileRepeat(tile);
    const start = startIn(repeat, random);
    const sorts = THEMES[theme]!;
    const prints = sorts.map(s => printOf(s, palette));
    const places = poissonDisc(tile, spacing, random);
    const kinds = kindsFor(places, sorts.length, tile);
    const largest = Math.max(...sorts.map(s => s.size ?? 1));
    // The n-th layers of all figures are one coat: figures never overlap each other.
    const deep = Math.max(...prints.map(p => p.length));
    const figures: Painted[][] = Array.from({ length: deep }, () => []);
    for (const [i, at] of places.entries()) {
      const { size = 1, turn = 0 } = sorts[kinds[i]!]!;
      const angle = (between(-turn, turn, random) * Math.PI) / 180;
      const map = compose(
        translation(...at),
        compose(rotation(angle), scaling((spacing * fill * size) / largest)),
      );
      for (const [n, [colour, shape]] of prints[kinds[i]!]!.entries()) {
        figures[n]!.push([colour, moved(shape, map)]);
      }
    }
    if (pins > 0) figures[0]!.push(...gapDots(places, tile, (spacing * fill) / 2, pins, palette));
    return coats(area, 0, () => figures.map(coat => tiled(coat, repeat, start, area)));
  },
});

/** Dots at the corners of the places' Voronoi cells: the points that are farthest from all of them. */
function gapDots(
  places: readonly Point[],
  tile: Tile,
  radius: number,
  diameter: number,
  palette: readonly string[],
): Painted[] {
  const taken = new Boxes(tile, radius);
  const dots: Painted[] = [];
  const cells = voronoiCells(places, tile);
  for (const [i, cell] of cells.entries()) {
    for (const p of cell) {
      const free = Math.hypot(p[0] - places[i]![0], p[1] - places[i]![1]) - radius;
      if (free < diameter || taken.near(p, radius)) continue;
      taken.add(p);
      dots.push([inkOf(palette, 1), shapeOf(circle(p, diameter / 2))]);
    }
  }
  return dots;
}
