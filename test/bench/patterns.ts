/** Every printed pattern over a whole sheet of 12 × 12 in: cut to its edge and written as SVG. */

import { presetStore } from '../../src/cli/preset-files.js';
import { rectangle, translation } from '../../src/geom/index.js';
import { openPresets } from '../../src/job/presets.js';
import { artFor } from '../../src/motifs/art.js';
import { PATTERNS } from '../../src/motifs/patterns/index.js';
import { artPaths } from '../../src/write/art-paths.js';
import { type Row, warmed } from './measure.js';

const SHEET_MM = 304.8;
const BLEED_MM = 3;
const AIM_MS = 150;
const AIM_KB = 300;

export async function patterns(): Promise<Row[]> {
  const presetsDir = new URL('../../presets', import.meta.url).pathname;
  const palette = openPresets(presetStore({ presetsDir })).get('palette', 'windfall');
  if (!('value' in palette)) throw new Error('the palette cannot be read');
  const sheet = rectangle(0, 0, SHEET_MM, SHEET_MM);
  const rows: Row[] = [];
  for (const { id } of PATTERNS) {
    const spec = { pattern: id, values: {}, palette: palette.value.colours, seed: 1 };
    const write = () =>
      artPaths(artFor(spec, sheet, BLEED_MM), translation(0, 0), SHEET_MM)
        .map(({ colour, d }) => `<path fill="${colour}" d="${d}"/>`)
        .join('');
    const took = await warmed(write, 3, 7);
    rows.push({ what: `${id} on 12 × 12 in`, value: took, unit: 'ms', aim: AIM_MS });
    const size = write().length / 1000;
    rows.push({ what: `${id} on 12 × 12 in, SVG`, value: size, unit: 'kB', aim: AIM_KB });
  }
  return rows;
}
