/** A face of the person's own in OpenType with cubic outlines (CFF): Debian's Linux Libertine (OFL or GPL). */
import { existsSync, readFileSync } from 'node:fs';
import * as hb from 'harfbuzzjs';
import { describe, expect, it } from 'vitest';
import { bounds, signedArea } from '../../src/geom/index.js';
import { letterLine, openFont, shape } from '../../src/motifs/lettering.js';

const FILE = '/usr/share/fonts/opentype/linux-libertine/LinLibertine_R.otf';
const bytes = () => {
  if (!existsSync(FILE))
    throw new Error('the font is missing: apt-get install fonts-linuxlibertine');
  return new Uint8Array(readFileSync(FILE));
};
const LINES = ['Harvest treats', 'AVATAR To. We, “Yes!”', 'fi fl ffi office', 'café crème', '1234'];

describe('an OTF of cubic outlines', () => {
  it('has CFF outlines, or it proves nothing', () => {
    const data = bytes();
    expect(Buffer.from(data.subarray(0, 4)).toString('latin1')).toBe('OTTO');
  });
  it.each(LINES)('sets "%s" as HarfBuzz does', text => {
    const data = bytes();
    const font = new hb.Font(new hb.Face(new hb.Blob(data)));
    const buffer = new hb.Buffer();
    buffer.addText(text);
    buffer.guessSegmentProperties();
    hb.shape(font, buffer);
    const positions = buffer.getGlyphPositions();
    const theirs = buffer
      .getGlyphInfos()
      .map((g, i) => [g.codepoint, positions[i]!.xAdvance] as const);
    const run = shape(openFont(data).fonts[0]!, text);
    expect(run.glyphs.map((g, i) => [g.id, run.positions[i]!.xAdvance])).toEqual(theirs);
  });
  it('gives welded outlines, holes and all, as large as asked', () => {
    const [o, ...more] = letterLine(openFont(bytes()), 'O', 10);
    expect(more).toEqual([]);
    expect(o!.holes).toHaveLength(1);
    expect(signedArea(o!.outer)).toBeGreaterThan(-signedArea(o!.holes[0]!));
    const h = bounds(letterLine(openFont(bytes()), 'H', 10)[0]!.outer);
    // Its capital height is measured over the round letters.
    expect(Math.abs(h.maxY - h.minY - 10)).toBeLessThan(0.2);
  });
});
