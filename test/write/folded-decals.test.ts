/** What is glued to a face is seen on it in the folded picture, in the order of gluing. */
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { circle, rectangle } from '../../src/geom/index.js';
import type { Decal, Path } from '../../src/model.js';
import { foldedPicture } from '../../src/write/index.js';
import { seenLid } from '../support/seen-lid.js';

const decal = (outline: Path, colour: string, more: Partial<Decal> = {}): Decal => ({
  piece: {
    id: 'p',
    title: 'p',
    name: { part: { title: 'p' } },
    stock: 's',
    count: 1,
    outline,
    holes: [],
    strokes: [],
  },
  net: 'box',
  panel: 'lid',
  side: 'outside',
  at: [1, 0, 0, 1, 0, 0],
  colour,
  lift: 0,
  ...more,
});

/** The colours in the picture at points of the face, as red, green or blue whichever is most. */
async function seenAt(decals: readonly Decal[], points: readonly (readonly [number, number])[]) {
  const paper = () => ({ outside: '#808080', inside: '#808080' });
  const svg = await foldedPicture({ parts: [seenLid], paper, decals }, 600);
  const image = new Resvg(svg).render();
  // A margin of a part of the longer side all round.
  const scale = image.width / (60 + 2 * 0.08 * 60);
  return points.map(([x, y]) => {
    const px = Math.round((x + 0.08 * 60) * scale);
    const py = image.height - Math.round((y + 0.08 * 60) * scale);
    const rgb = [
      ...image.pixels.subarray(4 * (py * image.width + px), 4 * (py * image.width + px) + 3),
    ];
    const most = Math.max(...rgb);
    return most - Math.min(...rgb) < 40 ? 'grey' : ['red', 'green', 'blue'][rgb.indexOf(most)];
  });
}
/** How dark the face is at a point, 0 to 1. */
async function darkAt(decals: readonly Decal[], [x, y]: readonly [number, number]) {
  const paper = () => ({ outside: '#f0f0f0', inside: '#f0f0f0' });
  const image = new Resvg(await foldedPicture({ parts: [seenLid], paper, decals }, 600)).render();
  const scale = image.width / (60 + 2 * 0.08 * 60);
  const px = Math.round((x + 0.08 * 60) * scale);
  const py = image.height - Math.round((y + 0.08 * 60) * scale);
  return 1 - image.pixels[4 * (py * image.width + px)]! / 255;
}
const RED = '#d01010';
const BLUE = '#1010d0';

describe('the folded picture', () => {
  it('has the shadow of a layer on foam fall farther, the higher it lies', async () => {
    const flat = decal(circle([30, 20], 10), RED);
    const beside = [30 + 0.8 + 10 * Math.SQRT1_2, 20 - 0.8 - 10 * Math.SQRT1_2] as const;
    const bare = await darkAt([flat], beside);
    expect(await darkAt([{ ...flat, lift: 3 }], beside)).toBeGreaterThan(bare + 0.1);
  });

  it('shows what is placed on a face, the last glued on top', async () => {
    const disc = decal(circle([30, 20], 10), RED);
    const dot = decal(circle([30, 20], 4), BLUE);
    const points = [
      [30, 20],
      [37, 20],
      [10, 10],
    ] as const;
    expect(await seenAt([disc, dot], points)).toEqual(['blue', 'red', 'grey']);
    expect(await seenAt([dot, disc], points)).toEqual(['red', 'red', 'grey']);
    expect(await seenAt([{ ...disc, side: 'inside' }], points)).toEqual(['grey', 'grey', 'grey']);
  });

  it('cuts it off at the edge, unless it may overhang', async () => {
    const over = decal(rectangle(50, 15, 13, 10), RED);
    const beyond = [[61.5, 20]] as const;
    expect(await seenAt([over], beyond)).toEqual(['grey']);
    expect(await seenAt([{ ...over, overhangs: true }], beyond)).toEqual(['red']);
  });

  it('shows white print as the colour of its paper: printers have no white ink', async () => {
    const outline = circle([30, 20], 10);
    const art = { ground: '#ffffff', fills: [], bleed: outline };
    const printed = decal(outline, RED);
    const piece = { ...printed.piece, art };
    expect(await seenAt([{ ...printed, piece }], [[30, 20]])).toEqual(['red']);
  });
});
