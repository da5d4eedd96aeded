/** How far apart two colours are, to eyes with and without colour-blindness. */

/** sRGB to linear light (IEC 61966-2-1). */
const linear = (byte: number) => {
  const v = byte / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};
type Three = readonly [number, number, number];
const times = (m: readonly Three[], v: Three): Three =>
  m.map(row => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Three;

/** Machado, Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color Vision
 *  Deficiency", IEEE TVCG 15(6) 2009, severity 1.0 (from memory; each row adds up to 1). */
export const SIGHTS: Readonly<Record<string, readonly Three[]>> = {
  full: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** CIELAB of linear sRGB under D65 (CIE 15; matrix of IEC 61966-2-1). */
function lab(rgb: Three): Three {
  const [x, y, z] = times(
    [
      [0.4124564, 0.3575761, 0.1804375],
      [0.2126729, 0.7151522, 0.072175],
      [0.0193339, 0.119192, 0.9503041],
    ],
    rgb,
  );
  const f = (t: number) => (t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16 / 116);
  const [fx, fy, fz] = [f(x / 0.95047), f(y), f(z / 1.08883)];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** CIE76 difference of two hex colours as one kind of eye sees them. */
export function difference(a: string, b: string, sight: readonly Three[]): number {
  const seen = (hex: string) => {
    const bytes = [1, 3, 5].map(i => linear(Number.parseInt(hex.slice(i, i + 2), 16)));
    const light = times(sight, bytes as unknown as Three).map(v => Math.min(1, Math.max(0, v)));
    return lab(light as unknown as Three);
  };
  const [p, q] = [seen(a), seen(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/** Relative luminance's ratio, from 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r, g, bl] = [1, 3, 5].map(i => linear(Number.parseInt(hex.slice(i, i + 2), 16)));
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * bl!;
  };
  const [p, q] = [luminance(a), luminance(b)];
  return (Math.max(p, q) + 0.05) / (Math.min(p, q) + 0.05);
}
