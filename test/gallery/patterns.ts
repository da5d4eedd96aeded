/** Every printed pattern as a sheet of paper with a curl of shadow, its name below. */
import { rectangle, translation } from '../../src/geom/index.js';
import type { ArtSpec } from '../../src/model.js';
import { artFor } from '../../src/motifs/art.js';
import { PATTERNS } from '../../src/motifs/patterns/index.js';
import type { makeMotifTools } from '../../src/motifs/tools.js';
import { artPaths } from '../../src/write/art-paths.js';
import { caption } from './motifs.js';

type Tools = ReturnType<typeof makeMotifTools>;

/** A swatch of paper, mm, and pixels to the millimetre. */
const SWATCH = { width: 92, height: 68 };
const SCALE = 2.6;
const GAP_PX = 26;
const CAPTION_PX = 28;
const COLUMNS = 4;
const GROUND = '#efe8dc';

/** Which palette shows a pattern at its best, and what it is given beside its defaults. */
const SHOWN: Readonly<Record<string, Partial<ArtSpec> & { readonly palette: string[] }>> = {};

export function swatch(spec: ArtSpec, x: number, y: number): string {
  const art = artFor(spec, rectangle(0, 0, SWATCH.width, SWATCH.height), 0.01);
  const paths = artPaths(art, translation(0, 0), SWATCH.height)
    .map(({ colour, d }) => `<path fill="${colour}" d="${d}"/>`)
    .join('');
  const [w, h] = [SWATCH.width * SCALE, SWATCH.height * SCALE];
  return (
    `<rect x="${x + 2}" y="${y + 4}" width="${w}" height="${h}" fill="#3a2c1c" opacity="0.18"/>` +
    `<g transform="translate(${x} ${y}) scale(${SCALE})">${paths}</g>`
  );
}

export interface ShownPattern {
  readonly name: string;
  readonly spec: ArtSpec;
}

export function patternSheet(
  tools: Tools,
  palettes: Readonly<Record<string, readonly string[]>>,
  shown: readonly ShownPattern[] = PATTERNS.map((p, i) => ({
    name: p.id,
    spec: {
      pattern: p.id,
      values: {},
      seed: 5,
      palette: Object.values(palettes)[i % Object.keys(palettes).length]!,
      ...SHOWN[p.id],
    },
  })),
): { readonly svg: string; readonly width: number } {
  const [w, h] = [SWATCH.width * SCALE + GAP_PX, SWATCH.height * SCALE + CAPTION_PX + GAP_PX / 2];
  const width = Math.round(COLUMNS * w + GAP_PX);
  const height = Math.round(Math.ceil(shown.length / COLUMNS) * h + GAP_PX);
  const parts = shown.map(({ name, spec }, i) => {
    const x = GAP_PX + (i % COLUMNS) * w;
    const y = GAP_PX + Math.floor(i / COLUMNS) * h;
    const middle = x + (SWATCH.width * SCALE) / 2;
    return swatch(spec, x, y) + caption(tools, name, middle, y + SWATCH.height * SCALE + 20);
  });
  return {
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><rect width="${width}" height="${height}" fill="${GROUND}"/>${parts.join('')}</svg>`,
    width,
  };
}
