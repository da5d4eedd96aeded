/** Printed fills as pixels, by resvg: colours at places, and shares of a window. */
import { Resvg } from '@resvg/resvg-js';
import type { Fill } from '../../src/model.js';
import { pathData } from '../../src/write/svg.js';

/** A window on the fills, mm, from its lower left corner. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, alpha, from the top left. */
  readonly bytes: Uint8Array;
}

export function pixelsOf(
  fills: readonly Fill[],
  ground: string,
  { x, y, width, height }: Window,
  wide: number,
): Pixels {
  const paths = fills.map(({ colour, regions }) => {
    const d = regions.flatMap(r => [r.outer, ...r.holes].map(p => pathData(p, 0))).join('');
    return `<path fill="${colour}" d="${d}"/>`;
  });
  const box = `${x} ${-y - height} ${width} ${height}`;
  const tall = Math.round((wide * height) / width);
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${tall}" viewBox="${box}" ` +
    `preserveAspectRatio="none"><rect x="${x}" y="${-y - height}" width="${width}" ` +
    `height="${height}" fill="${ground}"/>${paths.join('')}</svg>`;
  const image = new Resvg(svg).render();
  return { width: image.width, height: image.height, bytes: image.pixels };
}

/** Pixels that differ by more than what two edges' smoothing may, as a share. */
export function unlike(a: Pixels, b: Pixels): number {
  if (a.width !== b.width || a.height !== b.height) return 1;
  let count = 0;
  for (let i = 0; i < a.bytes.length; i += 4) {
    const far = [0, 1, 2].some(k => Math.abs(a.bytes[i + k]! - b.bytes[i + k]!) > 48);
    if (far) count += 1;
  }
  return count / (a.width * a.height);
}

/** How much of a window is not the ground: half covered pixels count half. For fills of one colour. */
export function coverage({ bytes }: Pixels, ground: string, ink: string): number {
  const channels = [1, 3, 5].map(i =>
    [ground, ink].map(c => Number.parseInt(c.slice(i, i + 2), 16)),
  );
  let best = 0;
  for (const k of [1, 2]) {
    const span = (p: number) => Math.abs(channels[p]![1]! - channels[p]![0]!);
    if (span(k) > span(best)) best = k;
  }
  const [from, to] = channels[best] as [number, number];
  let sum = 0;
  for (let i = best; i < bytes.length; i += 4) sum += (bytes[i]! - from) / (to - from);
  return sum / (bytes.length / 4);
}

/** The share of pixels of just this colour. */
export function shareOf({ bytes }: Pixels, colour: string): number {
  const rgb = [1, 3, 5].map(i => Number.parseInt(colour.slice(i, i + 2), 16));
  let count = 0;
  for (let i = 0; i < bytes.length; i += 4) {
    if (rgb.every((v, k) => Math.abs(bytes[i + k]! - v) <= 1)) count += 1;
  }
  return count / (bytes.length / 4);
}
