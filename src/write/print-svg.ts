/** The page that is printed, as SVG of true size: what the print PDF has on paper, its words as outlines,
 *  for those whose software takes no PDF. */
import type { PrintWriter } from '../contracts.js';
import type { PrintPage } from '../model.js';
import { captionsOf } from './captions.js';
import { drawArts } from './draw-arts.js';
import { type LetterOutlines, letterOutlines } from './letter-outlines.js';
import { exact, num } from './number.js';
import type { PageKit } from './page-kit.js';
import { pathData } from './svg.js';
import { composeSvg } from './svg-document.js';

/** The print writer. A sheet with no white paper left for the captions gets none of them. */
export function printSvgWriter({ font }: PageKit): PrintWriter {
  return {
    id: 'print-svg',
    summary: 'SVG of the printed page, of true size: art, register marks, scale bar',
    extension: 'svg',
    async write(page) {
      const { width, height } = page.drawing;
      return new TextEncoder().encode(await pageSvg(page, letterOutlines(font), { width, height }));
    },
  };
}

/** The page on white paper of `size`, mm: its own, or a little larger to the right and below. */
export function pageSvg(
  page: PrintPage,
  letters: LetterOutlines,
  size: { readonly width: number; readonly height: number },
): Promise<string> {
  const { drawing, arts, ink } = page;
  const { height } = drawing;
  return composeSvg(root => {
    root.attr({ width: `${num(size.width)}mm`, height: `${num(size.height)}mm` });
    root.attr('viewBox', `0 0 ${exact(size.width)} ${exact(size.height)}`);
    root.rect(size.width, size.height).fill('#ffffff');
    drawArts(root, root.group().id('art'), arts, drawing, 'clear');
    const marks = root.group().id('marks');
    for (const { lines, width, solids } of ink) {
      for (const path of lines) {
        marks
          .path(pathData(path, height))
          .attr({ fill: 'none', stroke: '#000000', 'stroke-width': num(width) });
      }
      for (const path of solids) marks.path(pathData(path, height)).fill('#000000');
    }
    const captions = captionsOf(page, letters.width);
    if (!captions) return;
    // The captions' frame has y up; SVG's runs down from the sheet's upper edge.
    const [a, b, c, d, e, f] = captions.at;
    const frame = [a, -b, -c, d, e, height - f].map(exact).join(' ');
    const words = root.group().id('captions').attr('transform', `matrix(${frame})`);
    for (const [x, y, w, h] of captions.boxes) {
      words.path(`M${num(x)} ${num(-y)}h${num(w)}v${num(-h)}h${num(-w)}Z`).fill('#000000');
    }
    for (const { text, x, y, size: em } of captions.lines) {
      words
        .path(letters.data(text, em))
        .attr('transform', `translate(${num(x)} ${num(-y)})`)
        .fill('#000000');
    }
  });
}
