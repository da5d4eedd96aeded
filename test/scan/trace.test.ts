/** Images traced out of pages whose truth is a formula: areas, and how far the cut is from the ink. */
import { describe, expect, it } from 'vitest';
import { contains, distanceToPath, flatten, pathLength, polygon } from '../../src/geom/index.js';
import type { Point } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';
import { chained, onto, type Plane } from '../../src/scan/plane.js';
import { sampled } from '../../src/scan/raster.js';
import type { TracedImage } from '../../src/scan/trace.js';
import { type PageOptions, tracePage } from '../../src/scan/trace-page.js';
import { flat, LETTER, page, turned } from './pages.js';

const AREA = { minX: 20, minY: 20, maxX: 195, maxY: 255 };
const USUAL: PageOptions = {
  ink: 'dark',
  leastArea: 6,
  margin: 2,
  merge: 3,
  holes: false,
  smooth: 0.1,
};

const star = (x: number, y: number, R: number, r: number): Point[] =>
  Array.from({ length: 10 }, (_, i): Point => {
    const [a, q] = [(Math.PI * i) / 5 + 0.3, i % 2 ? r : R];
    return [x + q * Math.cos(a), y + q * Math.sin(a)];
  });
const drawn = (points: readonly Point[], fill: string) =>
  `<path fill="${fill}" d="M${points.map(p => p.join(' ')).join('L')}Z"/>`;
const disc = (x: number, y: number, r: number, fill: string) =>
  `<circle cx="${x}" cy="${y}" r="${r}" fill="${fill}"/>`;
const GRID = Array.from(
  { length: 24 },
  (_, i) =>
    `<path d="M20 ${20 + 10 * i}H195M${20 + 10 * Math.min(i, 17)} 20V255" stroke="#dde9f2" stroke-width=".2"/>`,
).join('');

interface Scan {
  readonly dpi: number;
  readonly paper?: string;
  /** Standard deviation of the noise, of 255. */
  readonly noise?: number;
  /** Light at the right over that at the left. */
  readonly uneven?: number;
  readonly deg?: number;
  readonly seed?: number;
}
/** The page scanned, and laid flat again by the plane that is known. */
function traced(
  more: string,
  { dpi, paper = '#fff', noise = 0, uneven = 1, deg = 0, seed = 9 }: Scan,
  options: Partial<PageOptions> = {},
) {
  const sheet = page([], dpi, { more, paper });
  const { width, height } = sheet;
  let [plane, data]: [Plane, Uint8Array] = [flat(LETTER, dpi), sheet.data];
  if (noise > 0 || uneven !== 1 || deg !== 0) {
    const by = turned(width, height, deg, [2.3, -1.7]);
    const back = turned(width, height, -deg, [0, 0]);
    const random = seeded(seed);
    const planes = [0, 1, 2].map(c => ({
      width,
      height,
      data: Uint8Array.from({ length: width * height }, (_, i) => sheet.data[i * 3 + c]!),
    }));
    data = new Uint8Array(width * height * 3);
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const [x, y] = onto(back, [i + 0.5 - 2.3, j + 0.5 + 1.7]);
        const light = 1 + (uneven - 1) * (i / width);
        for (let c = 0; c < 3; c++) {
          const n = noise * 2 * (random() + random() + random() - 1.5);
          const v = sampled(planes[c]!, x, y) * light + n;
          data[(j * width + i) * 3 + c] = Math.max(0, Math.min(255, v + 0.5));
        }
      }
    }
    plane = chained(by, plane);
  }
  const found = tracePage(
    { width, height, data, channels: 3 },
    { plane },
    AREA,
    { width: LETTER[0], height: LETTER[1] },
    { ...USUAL, ...options },
  );
  if ('unseen' in found) throw new Error(found.unseen);
  return found;
}
/** Of the points of the cut before it is smoothed, how much nearer or farther they are than the margin. */
const offs = (image: TracedImage, distance: (p: Point) => number, margin = 2) =>
  flatten(polygon(image.grown[0]!), 0.01).map(p => Math.abs(distance(p) - margin));

describe('discs and stars, against their formulas', () => {
  const more =
    GRID +
    disc(60, 200, 20, '#1b2233') +
    disc(130, 200, 15, '#f2d873') +
    drawn(star(60, 130, 20, 9), '#7b3f2a') +
    drawn(star(140, 120, 25, 14), '#cfdccb');
  const areas = [
    Math.PI * 400,
    Math.PI * 225,
    5 * 20 * 9 * Math.sin(Math.PI / 5),
    5 * 25 * 14 * Math.sin(Math.PI / 5),
  ];
  for (const [name, scan] of [
    ['150 dpi', { dpi: 150 }],
    ['300 dpi', { dpi: 300 }],
    ['300 dpi, crooked, noisy, light falling off', { dpi: 300, noise: 4, uneven: 0.6, deg: 2.5 }],
    ['300 dpi on brown card', { dpi: 300, paper: '#c9a77c', noise: 3, uneven: 0.8 }],
  ] as const) {
    it(`${name}: dark and pale ink alike`, () => {
      // Ink lets the card through: yellow and pale green on brown.
      const onCard = more.replace('#f2d873', '#c08d38').replace('#cfdccb', '#a69168');
      const { images } = traced('paper' in scan ? onCard : more, scan);
      expect(images.length).toBe(4);
      const found = images;
      found.forEach((image, i) => {
        const edge = Math.sqrt(areas[i]!) * 4;
        // A twentieth of a millimetre all round is the most.
        expect(Math.abs(image.area - areas[i]!), `image ${i}`).toBeLessThan(0.05 * edge);
      });
      const round = offs(found[0]!, ([x, y]) => Math.hypot(x - 60, y - 200) - 20);
      const pale = offs(found[1]!, ([x, y]) => Math.hypot(x - 130, y - 200) - 15);
      const tips = polygon(star(60, 130, 20, 9));
      const pointed = offs(found[2]!, p => distanceToPath(p, tips));
      expect(Math.max(...round, ...pale)).toBeLessThan(0.1);
      const blunt = polygon(star(140, 120, 25, 14));
      const pale2 = offs(found[3]!, p => distanceToPath(p, blunt));
      expect(Math.max(...pointed, ...pale2)).toBeLessThan(0.15);
    });
  }
  it('keeps its margin to 0.15 mm at sharp tips and in corners, on any card, in any grain', () => {
    const square: Point[] = [
      [105, 60],
      [130, 62],
      [128, 87],
      [103, 85],
    ];
    // A wedge cut out of it, and one beside it as sharp as a pentagram's tips, 36°.
    const notched: Point[] = [...square.slice(0, 3), [108, 71], [112, 86], square[3]!];
    const wedge: Point[] = [
      [150, 60],
      [185, 48.6],
      [185, 71.4],
    ];
    const shapes = [star(60, 130, 20, 9), star(60, 200, 18, 10), notched, wedge];
    let worst = 0;
    // Pale ink in the grain of 5 is told from paper, but its tips are not.
    for (const [paper, ink, grains] of [
      ['#ffffff', '#7b3f2a', [5]],
      ['#ffffff', '#b9c9a0', [3]],
      ['#c9a77c', '#5b3a24', [1, 5]],
    ] as const) {
      const art = GRID + shapes.map(s => drawn(s, ink)).join('');
      for (const noise of grains) {
        const seed = 100 + noise;
        const { images } = traced(art, { dpi: 300, paper, noise, uneven: 0.8, deg: 1.3, seed });
        expect(images.length, `${paper} ${noise}`).toBe(shapes.length);
        for (const shape of shapes) {
          const edge = polygon(shape);
          const image = images.find(m => contains(polygon(m.grown[0]!), shape[0]!) === 'in')!;
          worst = Math.max(worst, ...offs(image, p => distanceToPath(p, edge)));
        }
      }
    }
    expect(worst).toBeLessThan(0.15);
  });
  it('keeps its margin where the ink meets lines of the grid that are printed beside their place', () => {
    // By up to 0.08 mm, half a dot of 150 dpi, each line for itself.
    const beside = (i: number) => 0.08 * Math.sin(7 * i + 1);
    const lines = Array.from({ length: 24 }, (_, i) => {
      const [x, y] = [20 + 10 * Math.min(i, 17) + beside(i), 20 + 10 * i + beside(i + 40)];
      return `<path d="M20 ${y}H195M${x} 20V255" stroke="#d3e3ee" stroke-width=".25"/>`;
    }).join('');
    const places = [
      [60, 200, 20, '#8c1e24'],
      [140, 200, 15, '#f2d873'],
      [60, 130, 20, '#aabe96'],
      [140, 120, 25, '#5c3a24'],
    ] as const;
    const art = lines + places.map(([x, y, r, ink]) => disc(x, y, r, ink)).join('');
    for (const dpi of [150, 300]) {
      const { images } = traced(art, { dpi, noise: 3, deg: 1.1 });
      expect(images.length).toBe(places.length);
      for (const [x, y, r] of places) {
        const image = images.find(m => contains(polygon(m.grown[0]!), [x, y]) === 'in')!;
        expect(image.ink.length, `${dpi} dpi, ${x} ${y}`).toBe(1);
        const off = offs(image, p => Math.hypot(p[0] - x, p[1] - y) - r);
        expect(Math.max(...off), `${dpi} dpi, ${x} ${y}`).toBeLessThan(0.11);
      }
    }
  });
  it('is smooth within what was asked, and of few curves', () => {
    for (const smooth of [0.05, 0.2]) {
      const { images } = traced(more, { dpi: 300, noise: 4 }, { smooth });
      for (const { grown, outline } of images) {
        const off = grown[0]!.map(p => distanceToPath(p, outline));
        expect(Math.max(...off)).toBeLessThanOrEqual(smooth + 1e-6);
        expect(outline.segments.length).toBeLessThan(pathLength(outline) / 2);
      }
    }
  });
});

describe('the options', () => {
  const ring = `<path fill-rule="evenodd" fill="#a33" d="M60 100h40v40h-40zM70 110h20v20h-20z"/>`;
  it('holes', () => {
    const [without] = traced(ring, { dpi: 150 }).images;
    expect(without!.holes.length).toBe(0);
    const [held] = traced(ring, { dpi: 150 }, { holes: true }).images;
    expect(held!.holes.length).toBe(1);
    expect(Math.abs(held!.area - 1200)).toBeLessThan(0.05 * 240);
  });
  it('parts that are near are one image, however far the margin reaches', () => {
    const two = disc(80, 100, 8, '#333') + disc(101, 100, 8, '#333');
    expect(traced(two, { dpi: 150 }).images.length).toBe(2);
    expect(traced(two, { dpi: 150 }, { merge: 6 }).images.length).toBe(1);
    expect(traced(two, { dpi: 150 }, { margin: 2.6 }).images.length).toBe(1);
  });
  it('least area, and dust', () => {
    const dirt = disc(80, 100, 8, '#333') + disc(120, 100, 1, '#333') + disc(150, 60, 0.1, '#333');
    expect(traced(dirt, { dpi: 300 }).images.length).toBe(1);
    expect(traced(dirt, { dpi: 300 }, { leastArea: 2 }).images.length).toBe(2);
  });
  it('a threshold by hand leaves pale ink out', () => {
    const both = disc(60, 100, 10, '#222') + disc(120, 100, 10, '#e0e0e0');
    expect(traced(both, { dpi: 150 }).images.length).toBe(2);
    expect(traced(both, { dpi: 150 }, { threshold: 0.4 }).images.length).toBe(1);
  });
  it('light ink on dark card, where that is said', () => {
    const white = disc(60, 100, 10, '#f4f1e8') + disc(120, 100, 10, '#e8dfc6');
    const card = { dpi: 150, paper: '#6f4f37', noise: 3, uneven: 0.8 };
    const { images } = traced(white, card, { ink: 'light' });
    expect(images.length).toBe(2);
    for (const { area } of images) {
      expect(Math.abs(area - Math.PI * 100)).toBeLessThan(0.05 * 2 * Math.PI * 10);
    }
  });
  it('a bare page, with its grid, has no image', () => {
    expect(traced(GRID, { dpi: 300, noise: 4, uneven: 0.7 }).images).toEqual([]);
  });
  it('are named as one reads', () => {
    const three = disc(150, 200, 8, '#333') + disc(50, 203, 8, '#333') + disc(60, 100, 8, '#333');
    const middles = traced(three, { dpi: 150 }).images.map(({ grown: [outer] }) =>
      Math.round(outer!.reduce((s, p) => s + p[0], 0) / outer!.length / 10),
    );
    expect(middles).toEqual([5, 15, 6]);
  });
});
