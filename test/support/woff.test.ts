import { describe, expect, it } from 'vitest';
import { fontBytes } from './fonts.js';
import { sfntOf } from './woff.js';

describe('unpacking WOFF', () => {
  it('gives an sfnt whose tables add up to their own check sums', () => {
    const sfnt = sfntOf(fontBytes('pacifico')[0]!);
    const view = new DataView(sfnt.buffer);
    expect(view.getUint32(0)).toBe(0x00010000);
    for (let i = 0; i < view.getUint16(4); i++) {
      const at = 12 + 16 * i;
      const name = String.fromCharCode(...sfnt.subarray(at, at + 4));
      const [sum, offset, length] = [4, 8, 12].map(k => view.getUint32(at + k)) as [
        number,
        number,
        number,
      ];
      let total = 0;
      for (let k = 0; k < length; k += 4) total = (total + view.getUint32(offset + k)) >>> 0;
      // `head` is summed as if its own field of the whole file's sum (at 8) were 0.
      if (name === 'head') total = (total - view.getUint32(offset + 8)) >>> 0;
      expect(total, name).toBe(sum);
    }
  });
  it('refuses what is no WOFF or is cut off', () => {
    const woff = fontBytes('pacifico')[0]!;
    expect(() => sfntOf(new Uint8Array(64))).toThrow('not a WOFF');
    expect(() => sfntOf(woff.subarray(0, woff.length >> 1))).toThrow();
  });
});
