/** Pages with register marks as a scanner would see them, with known truth, drawn by resvg. */
import { createRequire } from 'node:module';
import { bounds } from '../../src/geom/index.js';
import type { Path, Point, PrintedMark, RegisterMark } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';
import { fitPlane, inverse, onto, type Plane } from '../../src/scan/plane.js';
import { type Grey, greyOf, type Picture, sampled } from '../../src/scan/raster.js';
import { markInk, wedgeBeside, wedgeInk } from '../../src/sheet/index.js';

const { Resvg } = createRequire(import.meta.url)(
  '@resvg/resvg-js',
) as typeof import('@resvg/resvg-js');

type Style = RegisterMark['style'];
const marked =
  (style: Style) =>
  (name: string, at: Point): PrintedMark => {
    const quarters = (at[0] < 108 ? (at[1] < 140 ? 0 : 3) : at[1] < 140 ? 1 : 2) as 0;
    return { name, at, ink: markInk({ name, at, style, quarters }) };
  };
/** The presets. */
const RING: Style = { shape: 'ring-and-cross', size: 8, stroke: 0.25 };
const DISC: Style = { shape: 'disc', size: 6, stroke: 0.25 };
const CORNER: Style = { shape: 'corner', size: 8, stroke: 0.5 };
export const ringAndCross = marked(RING);
export const disc = marked(DISC);
export const corner = marked(CORNER);

export const LETTER = [215.9, 279.4] as const;
export function fiveOf(make: (name: string, at: Point) => PrintedMark, [w, h] = LETTER as Size) {
  return [
    make('lower-left', [11, 11]),
    make('lower-right', [w - 11, 11]),
    make('upper-right', [w - 11, h - 11]),
    make('upper-left', [11, h - 11]),
    make('fifth', [11 + 0.31 * (w - 22), 11]),
  ];
}
type Size = readonly [number, number];

/** What stands beside the fifth mark. */
export function wedgeOf(make: (name: string, at: Point) => PrintedMark, size: Size = LETTER) {
  const at = fiveOf(make, size)[4]!.at;
  const style = make === disc ? DISC : make === corner ? CORNER : RING;
  const wedge = wedgeBeside({ name: 'fifth', at, style, quarters: 0 });
  const { minX, minY, maxX, maxY } = bounds(wedge);
  const middle: Point = [(minX + maxX) / 2, (minY + maxY) / 2];
  return { name: 'wedge', at: middle, ink: wedgeInk(wedge) };
}

const at = ([u, v]: Point) => `${u} ${v}`;
function pathData(path: Path): string {
  let from = path.start;
  const parts = path.segments.map(s => {
    const chord = Math.hypot(s.to[0] - from[0], s.to[1] - from[1]);
    from = s.to;
    return s.kind === 'arc' ? `A${chord / 2} ${chord / 2} 0 0 1 ${at(s.to)}` : `L${at(s.to)}`;
  });
  return `M${at(path.start)}${parts.join('')}`;
}
const d = ({ ink: { lines, width, solids } }: PrintedMark) =>
  [
    ...lines.map(
      p => `<path d="${pathData(p)}" fill="none" stroke="#000" stroke-width="${width}"/>`,
    ),
    ...solids.map(p => `<path d="${pathData(p)}"/>`),
  ].join('');

/** The page as a picture of `dpi`, with what else is on it (SVG in mm, y up). */
export function page(
  marks: readonly PrintedMark[],
  dpi: number,
  { size = LETTER as Size, more = '', paper = '#fff' } = {},
): Picture {
  const [w, h] = size;
  const px = Math.round((w * dpi) / 25.4);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}"><rect width="${w}" height="${h}" fill="${paper}"/><g transform="matrix(1 0 0 -1 0 ${h})">${more}${marks.map(d).join('')}</g></svg>`;
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: px } }).render();
  const rgba = image.pixels;
  const data = new Uint8Array(image.width * image.height * 3);
  for (let i = 0, k = 0; i < rgba.length; i += 4) {
    data[k++] = rgba[i]!;
    data[k++] = rgba[i + 1]!;
    data[k++] = rgba[i + 2]!;
  }
  return { width: image.width, height: image.height, data, channels: 3 };
}

/** From the sheet to the pixels of `page`. */
export const flat = ([, h]: Size, dpi: number): Plane => {
  const k = dpi / 25.4;
  return [k, 0, 0, 0, -k, h * k, 0, 0];
};

export interface Spoil {
  /** From the page's pixels to the new picture's. */
  readonly by: Plane;
  readonly width: number;
  readonly height: number;
  /** Standard deviation of noise, of 255. */
  readonly noise?: number;
  /** Light at the right over that at the left. */
  readonly uneven?: number;
  /** Mean of so many by so many samples: a blur. */
  readonly soft?: number;
  /** What lies round the sheet. */
  readonly ground?: number;
  readonly seed?: number;
}

/** The page turned, moved, dimmed and made noisy. */
export function spoilt(picture: Picture, spoil: Spoil): Grey {
  const grey = greyOf(picture);
  const { width, height, noise = 0, uneven = 1, soft = 1, ground = 255, seed = 1 } = spoil;
  const back = inverse(spoil.by);
  const random = seeded(seed);
  const data = new Uint8Array(width * height);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      let sum = 0;
      for (let v = 0; v < soft; v++) {
        for (let u = 0; u < soft; u++) {
          const [x, y] = onto(back, [i + (u + 0.5) / soft, j + (v + 0.5) / soft]);
          const inside = x >= 0 && y >= 0 && x <= grey.width && y <= grey.height;
          sum += inside ? sampled(grey, x, y) : ground;
        }
      }
      const lit = (sum / soft ** 2) * (1 + (uneven - 1) * (i / width));
      const n = noise > 0 ? noise * 2 * (random() + random() + random() - 1.5) : 0;
      data[j * width + i] = Math.max(0, Math.min(255, lit + n + 0.5));
    }
  }
  return { width, height, data };
}

/** Turned by degrees about the middle and moved. */
export function turned(width: number, height: number, deg: number, by: Point, scale = 1): Plane {
  const [c, s] = [scale * Math.cos((deg * Math.PI) / 180), scale * Math.sin((deg * Math.PI) / 180)];
  const [x, y] = [width / 2, height / 2];
  return [c, -s, x + by[0] - c * x + s * y, s, c, y + by[1] - s * x - c * y, 0, 0];
}

/**
 * A photo: the page (of so many pixels) seen by a camera turned by `turn` and tilted by `tip` (nodding) and
 * `lean` (sideways) degrees, `far` page lengths away, whose focal length is the picture's length.
 */
export function photo(
  [w, h]: Size,
  [width, height]: Size,
  { turn = 0, tip = 0, lean = 0, far = 1.25 } = {},
): Plane {
  const rad = Math.PI / 180;
  const [ct, st] = [Math.cos(turn * rad), Math.sin(turn * rad)];
  const [ca, sa] = [Math.cos(tip * rad), Math.sin(tip * rad)];
  const [cb, sb] = [Math.cos(lean * rad), Math.sin(lean * rad)];
  const long = Math.max(w, h);
  const focal = Math.max(width, height);
  const corners: Point[] = [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ];
  const pairs = corners.map(from => {
    const [x0, y0] = [(from[0] - w / 2) / long, (from[1] - h / 2) / long];
    const [x, y] = [ct * x0 - st * y0, st * x0 + ct * y0];
    // Tipped about x, then leant about y.
    const [y1, z1] = [ca * y, sa * y];
    const [x2, z2] = [cb * x + sb * z1, -sb * x + cb * z1];
    const k = focal / (far + z2);
    return { from, to: [width / 2 + k * x2, height / 2 + k * y1] as Point };
  });
  return fitPlane('projective', pairs)!;
}
