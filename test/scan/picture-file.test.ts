/** Pictures out of files: every kind that a scanner writes, and files that are none. */
import { deflateSync } from 'node:zlib';
import { encode } from 'fast-png';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { PictureError, readPicture } from '../../src/scan/picture-file.js';
import { pngOf } from '../support/png.js';

const [W, H] = [320, 300];
/** A slope of grey with a dark square, so that rows and columns differ. */
const grey = Uint8Array.from({ length: W * H }, (_, i) => {
  const [x, y] = [i % W, Math.floor(i / W)];
  return x > 40 && x < 90 && y > 30 && y < 60 ? 10 : 55 + Math.floor((x + 2 * y) / 5);
});
const inColour = Uint8Array.from(
  { length: W * H * 3 },
  (_, k) => (grey[Math.floor(k / 3)]! + 60 * (k % 3)) & 255,
);

const refused = (bytes: Uint8Array): string => {
  try {
    readPicture(bytes);
  } catch (error) {
    if (error instanceof PictureError) return error.message;
    throw error;
  }
  throw new Error('read');
};

describe('PNG', () => {
  it('of grey and of colour, as it was written', () => {
    const one = readPicture(pngOf({ width: W, height: H, data: grey }));
    expect([one.width, one.height, one.channels, one.dpi]).toEqual([W, H, 1, undefined]);
    expect(one.data).toEqual(grey);
    const three = readPicture(pngOf({ width: W, height: H, data: inColour, channels: 3 }));
    expect(three.channels).toBe(3);
    expect(three.data).toEqual(inColour);
  });
  it('says its resolution', () => {
    const { dpi } = readPicture(pngOf({ width: W, height: H, data: grey }, 300));
    expect(dpi![0]).toBeCloseTo(300, 1);
    expect(dpi![1]).toBeCloseTo(300, 1);
  });
  it('of sixteen bits, with a see-through part on white', () => {
    const deep = Uint16Array.from(grey, v => v * 257);
    const png = encode({ width: W, height: H, data: deep, channels: 1, depth: 16 });
    expect(readPicture(png).data).toEqual(grey);
    const rgba = Uint8Array.from({ length: W * H * 4 }, (_, k) =>
      k % 4 === 3 ? (k % 8 < 4 ? 255 : 0) : 100,
    );
    const { data } = readPicture(
      encode({ width: W, height: H, data: rgba, channels: 4, depth: 8 }),
    );
    expect([...data.subarray(0, 6)]).toEqual([100, 100, 100, 255, 255, 255]);
  });
  it('of one bit a pixel, as line art is scanned', () => {
    const wide = 323;
    const row = Math.ceil(wide / 8);
    const bits = Uint8Array.from({ length: row * H }, (_, i) => (i % 2 ? 0b10101010 : 0b11110000));
    const packed = Uint8Array.from({ length: (row + 1) * H }, (_, i) => {
      const [y, x] = [Math.floor(i / (row + 1)), i % (row + 1)];
      return x === 0 ? 0 : bits[y * row + x - 1]!;
    });
    const { data, channels } = readPicture(
      png([head(wide, H, 1, 0), ['IDAT', deflateSync(packed)]]),
    );
    expect(channels).toBe(1);
    for (const [x, y] of [
      [0, 0],
      [5, 0],
      [8, 0],
      [9, 0],
      [322, 7],
      [0, 1],
    ] as const) {
      const bit = (bits[y * row + (x >> 3)]! >> (7 - (x & 7))) & 1;
      expect(data[y * wide + x], `${x}, ${y}`).toBe(bit * 255);
    }
  });
});

/** A PNG of these chunks, without CRCs. */
function png(chunks: readonly (readonly [string, Uint8Array])[]): Uint8Array {
  const all = [...chunks, ['IEND', new Uint8Array(0)] as const];
  return Uint8Array.from([
    ...[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    ...all.flatMap(([type, body]) => {
      const length = new Uint8Array(4);
      new DataView(length.buffer).setUint32(0, body.length);
      return [...length, ...new TextEncoder().encode(type), ...body, 0, 0, 0, 0];
    }),
  ]);
}
function head(width: number, height: number, depth: number, colour: number) {
  const body = new Uint8Array(13);
  const view = new DataView(body.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  body.set([depth, colour, 0, 0, 0], 8);
  return ['IHDR', body] as const;
}

describe('JPEG', () => {
  it('is near what was written, and says its resolution', () => {
    const rgba = Uint8Array.from({ length: W * H * 4 }, (_, k) =>
      k % 4 === 3 ? 255 : grey[Math.floor(k / 4)]!,
    );
    const file = jpeg.encode({ width: W, height: H, data: rgba }, 95).data;
    const found = readPicture(file);
    expect([found.width, found.height, found.channels]).toEqual([W, H, 3]);
    const off = grey.reduce((sum, v, i) => sum + Math.abs(v - found.data[3 * i]!), 0) / grey.length;
    expect(off).toBeLessThan(2);
    const jfif = Uint8Array.from(file);
    // Unit: dots an inch; 300 both ways.
    jfif.set([1, 1, 44, 1, 44], 13);
    expect(readPicture(jfif).dpi).toEqual([300, 300]);
  });
});

describe('is refused', () => {
  it('what is no picture', () => {
    expect(refused(new TextEncoder().encode('%PDF-1.7 a page'))).toContain('neither PNG nor JPEG');
    expect(refused(new Uint8Array(0))).toContain('neither');
  });
  it('30,000 pixels on a side, before anything is unpacked', () => {
    const before = process.memoryUsage().arrayBuffers;
    const bomb = png([head(30_000, 30_000, 8, 2), ['IDAT', new Uint8Array(10)]]);
    expect(refused(bomb)).toMatch(/30000 × 30000 pixels.*300 dpi/);
    const jpg = Uint8Array.from(
      jpeg.encode({ width: W, height: H, data: new Uint8Array(W * H * 4) }, 50).data,
    );
    const frame = jpg.findIndex((v, i) => v === 0xff && jpg[i + 1] === 0xc0);
    jpg.set([0x75, 0x30, 0x75, 0x30], frame + 5);
    expect(refused(jpg)).toMatch(/30000 × 30000/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20e6);
  });
  it('data that unpack to more than the size says', () => {
    const bomb = png([head(W, H, 8, 0), ['IDAT', deflateSync(new Uint8Array(60e6))]]);
    expect(refused(bomb)).toContain('broken');
  });
  it('a picture that is too small, or ends in the middle', () => {
    expect(refused(pngOf({ width: 40, height: 40, data: new Uint8Array(1600) }))).toContain(
      'too few',
    );
    const whole = pngOf({ width: W, height: H, data: grey });
    for (const share of [0.2, 0.5, 0.9, 0.999]) {
      expect(refused(whole.subarray(0, Math.floor(share * whole.length)))).toContain('broken');
    }
    const rgba = new Uint8Array(W * H * 4).map((_, k) => grey[k >> 2]!);
    const file = Uint8Array.from(jpeg.encode({ width: W, height: H, data: rgba }, 80).data);
    expect(refused(file.subarray(0, 60))).toContain('broken');
    for (const share of [0.3, 0.5, 0.9, 0.99]) {
      const cut = file.subarray(0, Math.floor(share * file.length));
      expect(refused(cut), String(share)).toMatch(/broken \(it ends in the middle\).*scan again/);
    }
  });
  it('a whole file whose data are not what they were, in words of our own', () => {
    const rgba = new Uint8Array(W * H * 4).map((_, k) => grey[k >> 2]!);
    const file = Uint8Array.from(jpeg.encode({ width: W, height: H, data: rgba }, 80).data);
    const scan = file.lastIndexOf(0xda);
    for (let k = scan + 200; k < scan + 400; k += 3) file[k] = 0xc0 + (k % 50);
    expect(refused(file)).toMatch(/broken \(what should be its pixels makes no sense\)/);
    const packed = Uint8Array.from(pngOf({ width: W, height: H, data: grey }));
    packed.fill(7, packed.length >> 1, (packed.length >> 1) + 40);
    expect(refused(packed)).toMatch(/broken \(what should be its pixels makes no sense\)/);
  });
});
