import { Resvg } from '@resvg/resvg-js';
import { getWindow } from '@svgdotjs/svg.js';
import { DOMParser, onWarningStopParsing } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { circle, line, openPath, rectangle } from '../../src/geom/index.js';
import { drawingPicture, type Letter, type PictureSubject } from '../../src/write/picture.js';
import { toPng } from '../../src/write/png.js';
import { CONVENTION, drawing, SPECIMEN } from '../support/drawings.js';
import { printPage } from '../support/print-page.js';

/** Words as one bar each. */
const bars: Letter = (text, height) => [
  { outer: rectangle(0, 0, text.length * height * 0.6, height), holes: [] },
];
const picture = (subject: PictureSubject) => drawingPicture(subject, CONVENTION, bars);
const PAPER = '#d9b98c';
const RING = drawing(
  {
    cut: [rectangle(20, 20, 60, 60), circle([50, 50], 10)],
    score: [openPath([20, 30], [line([80, 30])])],
  },
  100,
  100,
);

/** The colour at a place of a sheet 100 mm wide, as `#rrggbb`. */
function colourAt(svg: string, x: number, y: number): string {
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: 1110 } }).render();
  const { pixels, width } = image;
  // The margin is 5.5 mm: 111 mm in all, ten pixels a millimetre.
  const i = 4 * (Math.round((100 + 5.5 - y) * 10) * width + Math.round((x + 5.5) * 10));
  return `#${[...pixels.subarray(i, i + 3)].map(v => v.toString(16).padStart(2, '0')).join('')}`;
}
const brightness = (hex: string) => Number.parseInt(hex.slice(3, 5), 16);

describe('the picture of a drawing', () => {
  it('is well-formed, 900 px wide, and holds no text that would need a font', async () => {
    const svg = await picture({ drawing: SPECIMEN, paper: PAPER });
    const root = new DOMParser({ onError: onWarningStopParsing }).parseFromString(
      svg,
      'image/svg+xml',
    ).documentElement!;
    expect(root.getAttribute('width')).toBe('900');
    const names = new Set([...root.getElementsByTagName('*')].map(e => e.tagName));
    expect(names).toEqual(new Set(['g', 'path', 'rect']));
    // PNG: width and height stand in the header's bytes 16 to 23 (RFC 2083, IHDR).
    const png = Buffer.from(toPng(svg, 450));
    expect(png.readUInt32BE(16)).toBe(450);
    expect(png.subarray(1, 4).toString()).toBe('PNG');
  });

  it('is the same text for the same drawing, however many were made before', async () => {
    const page = printPage();
    const subject = { drawing: page.drawing, paper: PAPER, arts: page.arts };
    const first = await picture(subject);
    await picture({ drawing: SPECIMEN, paper: PAPER });
    expect(await picture(structuredClone(subject))).toBe(first);
    expect(first).not.toMatch(/Svgjs/);
  });

  it('leaves svg.js as it was found', async () => {
    const before = getWindow();
    await picture({ drawing: SPECIMEN, paper: PAPER });
    expect(getWindow()).toBe(before);
  });

  it('shows pieces in the colour of the paper, and waste and openings darker', async () => {
    const svg = await picture({ drawing: RING, paper: PAPER });
    expect(colourAt(svg, 30, 70)).toBe(PAPER);
    expect(brightness(colourAt(svg, 10, 90))).toBeLessThan(brightness(PAPER) - 5);
    expect(colourAt(svg, 50, 50)).toBe(colourAt(svg, 10, 90));
    expect(colourAt(svg, 20, 50)).toBe('#000000');
  });

  it('shows art full inside the cut and faint outside', async () => {
    const art = { ground: '#3355aa', fills: [], bleed: rectangle(17, 17, 66, 66) };
    const svg = await picture({
      drawing: RING,
      paper: '#ffffff',
      arts: [{ art, at: [1, 0, 0, 1, 0, 0] }],
    });
    expect(colourAt(svg, 30, 70)).toBe('#3355aa');
    expect(brightness(colourAt(svg, 18.5, 50))).toBeGreaterThan(0x55 + 60);
    expect(brightness(colourAt(svg, 18.5, 50))).toBeLessThan(0xf0);
  });

  it('tells operations apart by line type as well as by colour', async () => {
    const svg = await picture({ drawing: SPECIMEN, paper: '#ffffff' });
    const of = (id: string) => new RegExp(`<path[^>]* id="${id}"[^>]*/>`).exec(svg)![0];
    const dash = (id: string) => /stroke-dasharray="([^"]*)"/.exec(of(id))?.[1];
    const cap = (id: string) => /stroke-linecap="([^"]*)"/.exec(of(id))?.[1];
    const width = (id: string) => Number(/stroke-width="([^"]*)"/.exec(of(id))![1]);
    expect(dash('cut')).toBe(undefined);
    expect(dash('score')).toBe('4 1.5');
    expect([dash('perforate')?.split(' ')[0], cap('perforate')]).toEqual(['0.001', 'round']);
    expect(width('cut') / width('draw')).toBeCloseTo(2, 2);
  });

  it('gives a line an edge where it would be lost on its paper', async () => {
    const edges = async (paper: string) =>
      [...(await picture({ drawing: RING, paper })).matchAll(/stroke="#ffffff"/g)].length;
    expect(await edges('#ffffff')).toBe(0);
    expect(await edges('#22332b')).toBe(1);
  });

  it('throws on NaN and on a colour that is none', async () => {
    const bad = drawing({ cut: [circle([Number.NaN, 1], 2)] });
    await expect(picture({ drawing: bad, paper: PAPER })).rejects.toThrow();
    await expect(picture({ drawing: RING, paper: 'url(#x)' })).rejects.toThrow(/#rrggbb/);
    expect(() => toPng('<svg xmlns="http://www.w3.org/2000/svg"/>', 0)).toThrow(/pixels wide/);
  });
});
