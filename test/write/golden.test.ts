/** What the files look like, to the letter: the same bytes on every machine. */
import { readFileSync } from 'node:fs';
import { describe, it } from 'vitest';
import { rectangle } from '../../src/geom/index.js';
import { writeDrawingJson } from '../../src/write/drawing-json.js';
import { dxf } from '../../src/write/dxf.js';
import { sha256 } from '../../src/write/manifest.js';
import { pdfWriter } from '../../src/write/pdf.js';
import { drawingPicture } from '../../src/write/picture.js';
import { svg } from '../../src/write/svg.js';
import { CONVENTION, SPECIMEN } from '../support/drawings.js';
import { expectGolden } from '../support/golden.js';
import { printPage } from '../support/print-page.js';

describe('the files of a specimen', () => {
  it('SVG', () => expectGolden('write/specimen.svg', svg.write(SPECIMEN, CONVENTION)));
  it('DXF', () => expectGolden('write/specimen.dxf', dxf.write(SPECIMEN, CONVENTION)));
  it('drawing', () => expectGolden('write/specimen.drawing.json', writeDrawingJson(SPECIMEN)));

  it('picture', async () => {
    const letter = (text: string, height: number) => [
      { outer: rectangle(0, 0, text.length * height * 0.6, height), holes: [] },
    ];
    const subject = { drawing: SPECIMEN, paper: '#d9b98c' };
    expectGolden('write/specimen.picture.svg', await drawingPicture(subject, CONVENTION, letter));
  });

  it('PDF, by its sum', async () => {
    const font = new Uint8Array(
      readFileSync(new URL('../../presets/fonts/nunito-bold/latin.ttf', import.meta.url)),
    );
    const bytes = await pdfWriter({ font }).write(printPage(), CONVENTION);
    expectGolden('write/sheet.print.pdf.sha256', `${sha256(bytes)}\n`);
  });
});
