/** Every printed pattern as a sheet of paper with a curl of shadow, its name below. */
import { rectangle, translation } from '../../src/geom/index.js';
import type { Presets } from '../../src/job/presets.js';
import type { ArtSpec, ParamValues } from '../../src/model.js';
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

/** Which palette shows a pattern, and what it is given beside its defaults. */
interface Shown {
  readonly name: string;
  readonly pattern: string;
  readonly palette: string;
  readonly values?: ParamValues;
  readonly seed?: number;
}
const shown = (pattern: string, palette: string, values: ParamValues = {}, seed = 5): Shown => ({
  name: pattern,
  pattern,
  palette,
  values,
  seed,
});
const SHOWN: readonly Shown[] = [
  shown('dots', 'windfall'),
  shown('stripes', 'cider'),
  shown('gingham', 'frost'),
  shown('plaid', 'windfall'),
  shown('chevron', 'plum-dusk'),
  shown('honeycomb', 'cider'),
  shown('triangles', 'blossom'),
  shown('herringbone', 'plum-dusk', { inks: 'tints' }),
  shown('fish-scale', 'frost'),
  shown('terrazzo', 'cider'),
  shown('cells', 'frost'),
  shown('woodgrain', 'kraft-chalk'),
  shown('ripple', 'frost'),
  shown('scatter', 'windfall'),
  shown('floral', 'blossom'),
  shown('ombre', 'windfall'),
  shown('scatter', 'cider', { theme: 'forest' }),
  shown('scatter', 'windfall', { theme: 'meadow' }),
  shown('plaid', 'blossom', { angle: 45 }, 9),
  shown('ombre', 'plum-dusk', { through: 'all', steps: 60, rise: 0 }),
];

function swatch(spec: ArtSpec, x: number, y: number): string {
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

/** Swatches in rows, as an SVG; every pattern at least once. */
export function patternSheet(tools: Tools, presets: Presets): { svg: string; width: number } {
  const missing = PATTERNS.filter(p => !SHOWN.some(s => s.pattern === p.id)).map(p => p.id);
  if (missing.length > 0) throw new Error(`not on the sheet of patterns: ${missing.join(', ')}`);
  const colours = (id: string) => {
    const palette = presets.get('palette', id);
    if (!('value' in palette)) throw new Error(`no palette ${id}`);
    return palette.value.colours;
  };
  const [w, h] = [SWATCH.width * SCALE + GAP_PX, SWATCH.height * SCALE + CAPTION_PX + GAP_PX / 2];
  const width = Math.round(COLUMNS * w + GAP_PX);
  const height = Math.round(Math.ceil(SHOWN.length / COLUMNS) * h + GAP_PX);
  const parts = SHOWN.map(({ name, pattern, palette, values = {}, seed = 5 }, i) => {
    const spec = { pattern, values, seed, palette: colours(palette) };
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
