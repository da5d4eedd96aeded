/** The inks of a palette, whose first colour is the ground, and the shades between them. */

/** The n-th ink, going round when there are fewer. A palette of a ground alone prints on it in
 *  nothing else: an error, since the pattern could not be seen. */
export function inkOf(palette: readonly string[], n: number): string {
  const inks = palette.length - 1;
  if (!(inks > 0)) throw new RangeError('a palette needs a ground and at least one ink');
  return palette[1 + (((n % inks) + inks) % inks)]!;
}

/** The n-th ink thinned with the ground: a `share` of 1 is the ink itself. */
export const tintOf = (palette: readonly string[], n: number, share: number): string =>
  mixed(palette[0]!, inkOf(palette, n), share);

type Three = readonly [number, number, number];
const times = (m: readonly Three[], v: Three): Three =>
  m.map(r => r[0] * v[0] + r[1] * v[1] + r[2] * v[2]) as unknown as Three;

/** Linear sRGB to cone responses, and their cube roots to Oklab: B. Ottosson, "A perceptual color
 *  space for image processing", 2020 (from memory; white comes out as L = 1, a = b = 0). */
const TO_CONES: readonly Three[] = [
  [0.4122214708, 0.5363325363, 0.0514459929],
  [0.2119034982, 0.6806995451, 0.1073969566],
  [0.0883024619, 0.2817188376, 0.6299787005],
];
const TO_OKLAB: readonly Three[] = [
  [0.2104542553, 0.793617785, -0.0040720468],
  [1.9779984951, -2.428592205, 0.4505937099],
  [0.0259040371, 0.7827717662, -0.808675766],
];
const FROM_OKLAB: readonly Three[] = [
  [1, 0.3963377774, 0.2158037573],
  [1, -0.1055613458, -0.0638541728],
  [1, -0.0894841775, -1.291485548],
];
const FROM_CONES: readonly Three[] = [
  [4.0767416621, -3.3077115913, 0.2309699292],
  [-1.2684380046, 2.6097574011, -0.3413193965],
  [-0.0041960863, -0.7034186147, 1.707614701],
];

/** sRGB's curve (IEC 61966-2-1). */
const linear = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
const encoded = (v: number) => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

function oklab(hex: string): Three {
  const rgb = [1, 3, 5].map(i => linear(Number.parseInt(hex.slice(i, i + 2), 16) / 255));
  return times(TO_OKLAB, times(TO_CONES, rgb as unknown as Three).map(Math.cbrt) as never);
}

function hexOf(lab: Three): string {
  const cones = times(FROM_OKLAB, lab).map(v => v ** 3) as unknown as Three;
  const bytes = times(FROM_CONES, cones).map(v =>
    Math.round(255 * encoded(Math.min(1, Math.max(0, v)))),
  );
  return `#${bytes.map(b => b.toString(16).padStart(2, '0')).join('')}`;
}

/** A colour between two, `share` of the way to the second; even steps look even. */
export function mixed(from: string, to: string, share: number): string {
  if (!(share > 0)) return from;
  if (share >= 1) return to;
  const [a, b] = [oklab(from), oklab(to)];
  return hexOf([0, 1, 2].map(i => a[i]! + (b[i]! - a[i]!) * share) as unknown as Three);
}
