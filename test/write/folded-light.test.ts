/** The light in the folded picture: edges stay inside their paper, shade lies over all that is on a face. */
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { foldedPicture } from '../../src/write/index.js';
import { seenLid } from '../support/seen-lid.js';

const TABLE = [0xef, 0xe8, 0xdc];
const WIDTH = 600;
const ZOOM = 10;

/** The colour beside the right edge of the face, so many pixels of the picture outside it. */
function beside(outside: number): number[] {
  const paper = () => ({ outside: '#808080', inside: '#808080' });
  const svg = foldedPicture({ parts: [seenLid], paper, decals: [] }, WIDTH);
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: WIDTH * ZOOM } }).render();
  // A margin of 0.08 of the longer side all round.
  const at = Math.round(((WIDTH * 64.8) / 69.6 + outside) * ZOOM);
  const i = 4 * (Math.round(image.height / 2) * image.width + at);
  return [...image.pixels.subarray(i, i + 3)];
}

describe('the edge of a face', () => {
  it('is drawn inside it: what hides the face hides its edge', () => {
    expect(beside(0.4)).toEqual(TABLE);
    expect(beside(0.2)).not.toEqual(TABLE);
  });
  it('is darker than the face', () => {
    const [edge] = beside(-0.3);
    const [face] = beside(-4);
    expect(edge!).toBeLessThan(face! - 10);
  });
});
