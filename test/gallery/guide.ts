/** Pages of a guide of the demo job, as they are printed. */
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import type { Session } from '../../src/cli/session.js';
import { guidePage } from '../../src/guide/index.js';
import { itemGuide } from '../../src/item-guide.js';
import { planItem } from '../../src/pipeline.js';
import { figureSvg } from '../../src/write/figure-svg.js';
import { layoutGuide } from '../../src/write/guide-layout.js';
import { PAGE_SIZES } from '../../src/write/page-flow.js';
import { textMetrics } from '../../src/write/text-metrics.js';

const ITEM = 'hazelnut-shortbread';
/** The steps stand on the third page. */
const PAGES = 3;
const WIDTH = 560;
const GAP = 18;
const GROUND = '#efe8dc';

export function guideSheet({ design, kit }: Session, presetsDir: string): Uint8Array {
  const item = design.items.find(i => i.name === ITEM)!;
  const page = guidePage(itemGuide(planItem(item, design, kit), design, kit));
  const size = PAGE_SIZES[design.guidePaper];
  const figures = layoutGuide(page, size, textMetrics(kit.guideFonts)).slice(0, PAGES);
  const fontFiles = ['nunito', 'nunito-bold'].flatMap(face =>
    ['latin', 'latin-ext'].map(file => join(presetsDir, 'fonts', face, `${file}.ttf`)),
  );
  const font = { fontFiles, loadSystemFonts: false, defaultFontFamily: 'Nunito' };
  const height = Math.round((size.height / size.width) * WIDTH);
  const white = { kind: 'shape', paths: [sheetOf(size)], fill: 'page' } as const;
  const tiles = figures.map((figure, i) => {
    const svg = figureSvg({ ...figure, marks: [white, ...figure.marks] }, 2 * WIDTH);
    const words = svg.replaceAll('<text ', '<text font-family="Nunito" ');
    const png = Buffer.from(new Resvg(words, { font }).render().asPng()).toString('base64');
    const x = GAP + i * (WIDTH + GAP);
    return `<image x="${x}" y="${GAP}" width="${WIDTH}" height="${height}" href="data:image/png;base64,${png}"/>`;
  });
  const [w, h] = [GAP + PAGES * (WIDTH + GAP), height + 2 * GAP];
  const all = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}"><rect width="${w}" height="${h}" fill="${GROUND}"/>${tiles.join('')}</svg>`;
  return new Resvg(all).render().asPng();
}

function sheetOf({ width, height }: { readonly width: number; readonly height: number }) {
  const corners = [
    [width, 0],
    [width, height],
    [0, height],
    [0, 0],
  ] as const;
  const segments = corners.map(to => ({ kind: 'line' as const, to }));
  return { start: [0, 0] as const, segments, closed: true };
}
