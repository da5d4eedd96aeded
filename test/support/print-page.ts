/** A printed sheet for the tests: register marks at the corners and one more, two labels with art. */
import {
  circle,
  line,
  openPath,
  rectangle,
  roundedPolygon,
  transform,
  translation,
} from '../../src/geom/index.js';
import type { Art, Path, Point, PrintPage } from '../../src/model.js';
import { drawing } from './drawings.js';

export const markPaths = ([x, y]: Point): Path[] => [
  circle([x, y], 2.5),
  openPath([x - 4, y], [line([x + 4, y])]),
  openPath([x, y - 4], [line([x, y + 4])]),
];

export const markPlaces = (width: number, height: number): Point[] => [
  [10, 10],
  [width - 10, 10],
  [width - 10, height - 10],
  [10, height - 10],
  [10 + 0.31 * (width - 20), 10],
];

const ART: Art = {
  ground: '#f6e3c5',
  fills: [
    {
      colour: '#b5482a',
      regions: [-20, 0, 20].map(x => ({
        outer: circle([x, 0], 6),
        holes: [rectangle(x - 2, -2, 4, 4)],
      })),
    },
  ],
  bleed: roundedPolygon(
    [
      [-33, -18],
      [33, -18],
      [33, 18],
      [-33, 18],
    ],
    6,
  ),
};

export function printPage(width = 210, height = 297): PrintPage {
  const places = [translation(55, 50), translation(55, 95)];
  return {
    drawing: drawing(
      {
        score: [openPath([30, 50], [line([80, 50])])],
        cut: places.map(at => transform(rectangle(-30, -15, 60, 30), at)),
        register: markPlaces(width, height).flatMap(markPaths),
      },
      width,
      height,
    ),
    ink: [{ lines: markPlaces(width, height).flatMap(markPaths), width: 0.25, solids: [] }],
    arts: places.map(at => ({ art: ART, at })),
    captions: ['Apple boxes · Őszi vásár', 'Sheet 1 of 2'],
  };
}
