/** Pictures of pages as a person stamps them: ink with rough edges, blotches and spots that missed. */
import { createRequire } from 'node:module';
import { bounds, flatten } from '../../src/geom/index.js';
import type { Path, Point } from '../../src/model.js';
import { seeded } from '../../src/motifs/random.js';

const { Resvg } = createRequire(import.meta.url)(
  '@resvg/resvg-js',
) as typeof import('@resvg/resvg-js');

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
  readonly channels: 1 | 3;
}

export interface Stamp {
  /** Loops on the sheet, mm, filled by the even-odd rule. */
  readonly loops: readonly Path[];
  readonly colour: readonly [number, number, number];
}

/** A PNG's or any SVG's pixels in full colour. */
export function pixelsOf(svg: string, width: number): Pixels {
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: width },
    background: '#fff',
  }).render();
  const { pixels } = image;
  const data = new Uint8Array(image.width * image.height * 3);
  for (let i = 0, k = 0; i < pixels.length; i += 4) {
    data[k++] = pixels[i]!;
    data[k++] = pixels[i + 1]!;
    data[k++] = pixels[i + 2]!;
  }
  return { width: image.width, height: image.height, data, channels: 3 };
}

/** Values from 0 to 1 that change smoothly over `cell` pixels. */
export function valueNoise(width: number, height: number, cell: number, seed: number) {
  const [w, h] = [Math.ceil(width / cell) + 2, Math.ceil(height / cell) + 2];
  const random = seeded(seed);
  const knots = Float32Array.from({ length: w * h }, () => random());
  const ease = (t: number) => t * t * (3 - 2 * t);
  return (x: number, y: number): number => {
    const [u, v] = [Math.max(0, x / cell), Math.max(0, y / cell)];
    const [i, j] = [Math.min(w - 2, Math.floor(u)), Math.min(h - 2, Math.floor(v))];
    const [p, q] = [ease(Math.min(1, u - i)), ease(Math.min(1, v - j))];
    const k = j * w + i;
    const top = knots[k]! + p * (knots[k + 1]! - knots[k]!);
    const low = knots[k + w]! + p * (knots[k + w + 1]! - knots[k + w]!);
    return top + q * (low - top);
  };
}

/** How far the edge of ink runs from the stamp's own, mm, either way. */
const ROUGH_MM = 0.22;

/**
 * The page with ink on it, and where the ink is: 255 inside its rough edge. Blotches thin the ink by up to
 * half, and here and there it missed the paper inside an image.
 */
export function stamped(page: Pixels, perMm: number, stamps: readonly Stamp[], seed: number) {
  const { width, height } = page;
  const data = new Uint8Array(page.data);
  const ink = new Uint8Array(width * height);
  const far = Math.hypot(width, height);
  // Turned off the page's rows and columns, along which such noise shows.
  const noise = (mm: number, k: number) => {
    const value = valueNoise(2 * far, 2 * far, mm * perMm, seed + k);
    const [c, s] = [Math.cos(0.6 + k), Math.sin(0.6 + k)];
    return (x: number, y: number) => value(far + c * x - s * y, far + s * x + c * y);
  };
  const rough = [noise(0.7, 0), noise(0.7, 1)] as const;
  const fine = [noise(0.25, 2), noise(0.25, 3)] as const;
  const [wide, blotch, grain] = [noise(3.1, 4), noise(1.7, 5), noise(0.2, 6)];
  const heightMm = height / perMm;
  for (const { loops, colour } of stamps) {
    const box = bounds(...loops);
    const x0 = Math.max(0, Math.floor((box.minX - 1) * perMm));
    const y0 = Math.max(0, Math.floor((heightMm - box.maxY - 1) * perMm));
    const w = Math.min(width, Math.ceil((box.maxX + 1) * perMm)) - x0;
    const h = Math.min(height, Math.ceil((heightMm - box.minY + 1) * perMm)) - y0;
    const d = loops
      .map(p => flatten(p, 0.01).map(([x, y]: Point) => `${x} ${heightMm - y}`))
      .map(points => `M${points.join('L')}Z`)
      .join('');
    const view = `${x0 / perMm} ${y0 / perMm} ${w / perMm} ${h / perMm}`;
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="${view}"><path fill-rule="evenodd" d="${d}"/></svg>`;
    const mask = pixelsOf(svg, w).data;
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        const [px, py] = [x + x0, y + y0];
        const push = (k: 0 | 1) =>
          (1.4 * (rough[k](px, py) - 0.5) + 0.6 * (fine[k](px, py) - 0.5)) * ROUGH_MM * perMm;
        const [u, v] = [Math.round(x + push(0)), Math.round(y + push(1))];
        if (u < 0 || v < 0 || u >= w || v >= h) continue;
        const cover = 1 - mask[(v * w + u) * 3]! / 255;
        if (cover === 0) continue;
        const at = py * width + px;
        ink[at] = Math.max(ink[at]!, cover * 255);
        const blot = 0.5 * (wide(px, py) + blotch(px, py));
        const thin = 1 - 0.4 * blot - 0.25 * grain(px, py);
        const missed = blot > 0.74 ? 0.5 : 1;
        for (let c = 0; c < 3; c++) {
          const k = at * 3 + c;
          data[k] = data[k]! * (1 - cover * thin * missed * (1 - colour[c]! / 255));
        }
      }
    }
  }
  return { page: { width, height, data, channels: 3 as const }, ink };
}
