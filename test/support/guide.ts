/** Guides for tests: made as a run makes them, and read back by pdf.js. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { openSession } from '../../src/cli/session.js';
import { guidePage } from '../../src/guide/index.js';
import type { GuidePage, GuidePaper } from '../../src/guide-model.js';
import { itemGuide } from '../../src/item-guide.js';
import { boxDocument, type Document, type Source } from '../../src/job/index.js';
import type { Inside } from '../../src/model.js';
import { planItem } from '../../src/pipeline.js';
import { writeGuideHtml, writeGuidePdf } from '../../src/write/index.js';

const presetsDir = fileURLToPath(new URL('../../presets', import.meta.url));
const face = (id: string) =>
  ['latin', 'latin-ext'].map(
    file => new Uint8Array(readFileSync(`${presetsDir}/fonts/${id}/${file}.ttf`)),
  );
const scripts = (weight: string) =>
  ['hebrew', 'arabic'].map(
    file => new Uint8Array(readFileSync(`${presetsDir}/page-fonts/rubik-${weight}/${file}.ttf`)),
  );
export const GUIDE_FONTS = {
  regular: [...face('nunito'), ...scripts('regular')],
  bold: [...face('nunito-bold'), ...scripts('bold')],
};

/** The guide of a job's first item, or of the one named. */
export function guideOf(source: Source | Document, name?: string) {
  const { design, kit } = openSession(source, {}, { presetsDir, cwd: presetsDir });
  const item = name === undefined ? design.items[0]! : design.items.find(i => i.name === name)!;
  const plan = planItem(item, design, kit);
  const guide = itemGuide(plan, design, kit);
  return { plan, guide, page: guidePage(guide) };
}
export const jobOf = (text: string): Source => ({ file: 'fair.yaml', text });

/** No job takes less. */
const LEAST_SIDE_MM = 2;

/** One box of a style, sized by its inside in mm. */
export const boxOf = (style: string, { length, width, height }: Inside, stock = '') =>
  boxDocument({
    style,
    inside: `${[length, width, height].map(v => Math.max(v, LEAST_SIDE_MM)).join('x')}mm`,
    set: {},
    stock: stock || 'cardstock-65lb-12x12',
    cutter: 'gantry',
    split: 'auto',
  });

export const pdfOf = (page: GuidePage, paper: GuidePaper = 'a4') =>
  writeGuidePdf(page, paper, GUIDE_FONTS);
export const htmlOf = (page: GuidePage, paper: GuidePaper = 'a4') =>
  writeGuideHtml(page, paper, GUIDE_FONTS);

/** A line of text on a page and the box of its figures, in points. */
export interface TextBox {
  readonly text: string;
  readonly page: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Height of figures and capitals, in ems. */
const CAPITAL = 0.7;

export async function textsOf(bytes: Uint8Array): Promise<TextBox[]> {
  // pdf.js takes the bytes away from their owner.
  const pdf = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const out: TextBox[] = [];
  for (let n = 1; n <= pdf.numPages; n++) {
    const { items } = await (await pdf.getPage(n)).getTextContent();
    for (const item of items) {
      if (!('str' in item) || item.str.trim() === '') continue;
      const [a, b, c, d, x, y] = item.transform as number[];
      const high = CAPITAL * Math.hypot(c!, d!);
      const turned = Math.abs(b!) > Math.abs(a!);
      out.push({
        text: item.str.trim(),
        page: n,
        x0: turned ? x! - high : x!,
        y0: y!,
        x1: turned ? x! : x! + item.width,
        y1: turned ? y! + item.width : y! + high,
      });
    }
  }
  return out;
}

/** Pairs of texts that lie on each other by more than a hair. */
export function overlapping(boxes: readonly TextBox[]): [string, string][] {
  const hair = 0.3;
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        b =>
          a.page === b.page &&
          Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) > hair &&
          Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0) > hair,
      )
      .map((b): [string, string] => [a.text, b.text]),
  );
}

/** Texts that reach past the page. */
export const outside = (boxes: readonly TextBox[], width: number, height: number): string[] =>
  boxes.filter(b => !(b.x0 >= 0 && b.y0 >= 0 && b.x1 <= width && b.y1 <= height)).map(b => b.text);
