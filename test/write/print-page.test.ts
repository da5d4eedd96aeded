/** The printed page as SVG and as PNG: the same page as the PDF's. */
import { readFileSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geom/index.js';
import type { Point, PrintPage } from '../../src/model.js';
import { letterOutlines } from '../../src/write/letter-outlines.js';
import { printPngWriter } from '../../src/write/print-png.js';
import { printSvgWriter } from '../../src/write/print-svg.js';
import { CONVENTION } from '../support/drawings.js';
import { markPlaces, printPage } from '../support/print-page.js';

const face = (name: string) =>
  new Uint8Array(
    readFileSync(new URL(`../../presets/fonts/nunito-bold/${name}.ttf`, import.meta.url)),
  );
const font = [face('latin'), face('latin-ext')];
const svgOf = async (page: PrintPage) =>
  new TextDecoder().decode(await printSvgWriter({ font, dpi: 300 }).write(page, CONVENTION));
const pngOf = (page: PrintPage, dpi: number) =>
  printPngWriter({ font, dpi }).write(page, CONVENTION);

/** Darkness, 0 to 1, of a picture's pixels by place on the sheet (mm, y up). */
function pictureOf(png: Uint8Array, dpi: number, height: number) {
  const image = new Resvg(
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ` +
      `width="${sizeOf(png)[0]}" height="${sizeOf(png)[1]}"><image ` +
      `width="${sizeOf(png)[0]}" height="${sizeOf(png)[1]}" ` +
      `xlink:href="data:image/png;base64,${Buffer.from(png).toString('base64')}"/></svg>`,
  ).render();
  const px = (mm: number) => Math.floor((mm / 25.4) * dpi);
  return {
    at: ([x, y]: Point) => 1 - image.pixels[4 * (px(height - y) * image.width + px(x))]! / 255,
  };
}
/** Width and height stand first in a PNG's header (PNG, third edition, 11.2.1). */
const sizeOf = (png: Uint8Array): [number, number] => {
  const data = Buffer.from(png);
  return [data.readUInt32BE(16), data.readUInt32BE(20)];
};

describe('the printed page as SVG', () => {
  it('is well formed, of true size, one unit a millimetre', async () => {
    const text = await svgOf(printPage());
    const faults: string[] = [];
    const parser = new DOMParser({ onError: (_, message) => faults.push(message) });
    const root = parser.parseFromString(text, 'image/svg+xml').documentElement!;
    expect(faults).toEqual([]);
    expect(root.getAttribute('width')).toBe('210mm');
    expect(root.getAttribute('height')).toBe('297mm');
    expect(root.getAttribute('viewBox')).toBe('0 0 210 297');
    // Words are outlines: no font is asked for.
    expect(text).not.toMatch(/<text|font/);
  });

  it('has art, marks and captions as groups, and none of the lines of the tools', async () => {
    const page = printPage();
    const text = await svgOf(page);
    expect([...text.matchAll(/<g id="(\w+)"/g)].map(m => m[1])).toEqual([
      'art',
      'marks',
      'captions',
    ]);
    const without = { ...page, drawing: { ...page.drawing, layers: [] } };
    const places = /<g id="art">[\s\S]*<g id="captions"/;
    expect(places.exec(text)![0]).toBe(places.exec(await svgOf(without))![0]);
  });

  it('gives the same text for the same page', async () => {
    expect(await svgOf(structuredClone(printPage()))).toBe(await svgOf(printPage()));
  });

  it('prints nothing of art where the bleed of a neighbour begins', async () => {
    const page = printPage();
    const clear = [rectangle(20, 48, 40, 4)];
    const png = await pngOf({ ...page, arts: [{ ...page.arts[0]!, clear }] }, 150);
    const { at } = pictureOf(png, 150, 297);
    expect(at([40, 50])).toBe(0);
    expect(at([40, 53])).toBeGreaterThan(0.01);
  });
});

describe('the printed page as PNG', () => {
  // A4 at 300 dpi: 210 mm are 2,480.3 pixels, 297 mm 3,507.9; Letter is whole pixels.
  it.each([
    [210, 297, 300, 2481, 3508],
    [215.9, 279.4, 300, 2550, 3300],
    [215.9, 279.4, 150, 1275, 1650],
  ])('of %f × %f mm at %i dpi is %i × %i pixels, and says so', async (w, h, dpi, width, height) => {
    const png = Buffer.from(await pngOf(printPage(w, h), dpi));
    expect(sizeOf(png)).toEqual([width, height]);
    const at = png.indexOf('pHYs');
    expect(png.readUInt32BE(at + 4)).toBe(Math.round(dpi / 0.0254));
    expect(png.readUInt32BE(at + 8)).toBe(Math.round(dpi / 0.0254));
    expect(png.readUInt8(at + 12)).toBe(1);
  });

  it('has the marks where the cut file has them, to a pixel', async () => {
    const { at } = pictureOf(await pngOf(printPage(), 300), 300, 297);
    for (const [x, y] of markPlaces(210, 297)) {
      expect(at([x, y])).toBeGreaterThan(0.7);
      expect(at([x + 3.9, y])).toBeGreaterThan(0.4);
      expect(at([x + 2.5, y + 0.01])).toBeGreaterThan(0.4);
      expect(at([x + 1, y + 1])).toBe(0);
    }
  });
});

describe('lines of text as outlines', () => {
  const letters = letterOutlines(font);
  it('grow with their size, and are wider than nothing', () => {
    const width = letters.width('Őszi vásár', 2);
    expect(width).toBeGreaterThan(5);
    expect(letters.width('Őszi vásár', 4)).toBeCloseTo(2 * width, 9);
  });
  it('set a character that no file of the face has as a question mark', () => {
    expect(letters.data('漢', 3)).toBe(letters.data('?', 3));
    expect(letters.data('?', 3)).not.toBe('');
  });
});
