/** `npm run gallery`: the README's pictures, made from real results, into out/gallery. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readPresets } from '../../src/cli/preset-files.js';
import { foldwright } from '../support/command.js';
import { collage } from './collage.js';
import { fairScene, fairSession, sheetPicture } from './fair.js';
import { featureSheet } from './features.js';
import { guideSheet } from './guide.js';
import { letteringSheet } from './lettering.js';
import { motifSheet } from './motifs.js';
import { patternSheet } from './patterns.js';
import { previewShots } from './preview.js';
import { styleSheets } from './styles.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const out = join(root, 'out', 'gallery');
mkdirSync(out, { recursive: true });

const presetsDir = join(root, 'presets');
const session = fairSession(presetsDir);
const presets = readPresets({ presetsDir });
const fair = collage([
  [{ svg: fairScene(session), width: 1200 }],
  [
    { svg: await sheetPicture(session, 'cider-caramels', 'kraft-1'), width: 593 },
    { svg: await sheetPicture(session, 'plum-truffles', 'print-1'), width: 593 },
  ],
]);
writeFileSync(join(out, 'orchard-fair.png'), fair);
process.stdout.write('out/gallery/orchard-fair.png\n');

writeFileSync(join(out, 'guide.png'), guideSheet(session, presetsDir));
process.stdout.write('out/gallery/guide.png\n');

writeFileSync(join(out, 'motifs.png'), collage([[motifSheet(session.kit.tools)]]));
process.stdout.write('out/gallery/motifs.png\n');

writeFileSync(join(out, 'patterns.png'), collage([[patternSheet(session.kit.tools, presets)]]));
process.stdout.write('out/gallery/patterns.png\n');

writeFileSync(join(out, 'lettering.png'), collage(letteringSheet(session.kit.tools).map(t => [t])));
process.stdout.write('out/gallery/lettering.png\n');

const features = featureSheet(session.kit.tools.letter);
writeFileSync(join(out, 'features.png'), collage([[features]]));
process.stdout.write('out/gallery/features.png\n');

const sheets = styleSheets(session.kit.tools.letter);
sheets.forEach((sheet, i) => {
  const name = `styles-${i + 1}.png`;
  writeFileSync(join(out, name), collage([[sheet]]));
  process.stdout.write(`out/gallery/${name}\n`);
});

const look = ['--blade', '0.25mm', '--picture', 'out/gallery/inspect.png', '--width', '1400'];
await foldwright(['inspect', 'test/gallery/windfall-tags.svg', ...look], root);
process.stdout.write('out/gallery/inspect.png\n');

// Taken in Debian's Chromium, where it is installed.
if (existsSync('/usr/bin/chromium')) {
  const shots = await previewShots(session);
  const tiles = shots.map(png => ({
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="800"><image width="1000" height="800" href="data:image/png;base64,${Buffer.from(png).toString('base64')}"/></svg>`,
    width: 800,
  }));
  writeFileSync(join(out, 'preview.png'), collage([tiles]));
  process.stdout.write('out/gallery/preview.png\n');
}
