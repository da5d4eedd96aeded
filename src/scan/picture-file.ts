/**
 * PNG and JPEG files as pictures. Sizes are read from a file's head and refused before anything is
 * unpacked, and what is unpacked is bounded by them: no file makes us take more memory than a picture
 * that we would read.
 */
import { createRequire } from 'node:module';
import { constants, deflateSync, inflateSync } from 'node:zlib';
import type { DecodedPng } from 'fast-png';
import type { Picture } from './raster.js';

const require = createRequire(import.meta.url);

/** A file that is no picture we read: what is wrong, and what to do. */
export class PictureError extends Error {
  override readonly name = 'PictureError';
}

/** A letter page at 600 dpi has 34 million pixels, one at 1200 dpi would have 135. */
const MOST_PIXELS = 70e6;
const MOST_SIDE = 20_000;
/** Smaller than this, marks cannot be told from dirt. */
const LEAST_SIDE = 300;
const MM_IN_METRE = 25.4 / 1000;

/** Throws `PictureError`. */
export function readPicture(bytes: Uint8Array): Picture {
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return readPng(bytes);
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return readJpeg(bytes);
  throw new PictureError('it is neither PNG nor JPEG. Save the scan as one of these.');
}

const startsWith = (bytes: Uint8Array, head: readonly number[]) =>
  head.every((b, i) => bytes[i] === b);

function checkSize(width: number, height: number): void {
  const size = `${width} × ${height} pixels`;
  if (Math.max(width, height) > MOST_SIDE || width * height > MOST_PIXELS) {
    throw new PictureError(
      `it has ${size}; at most ${MOST_SIDE} on a side and ${MOST_PIXELS / 1e6} million are read. Scan at 300 dpi.`,
    );
  }
  if (Math.min(width, height) < LEAST_SIDE) {
    throw new PictureError(`it has ${size}: too few to find marks in. Scan at 300 dpi.`);
  }
}

const broken = (why: string) =>
  new PictureError(`the file is broken (${why}). Save it again, or scan again.`);

/** What libraries say of bytes is no help to a person. */
const SENSELESS = 'what should be its pixels makes no sense';

// ---- PNG ---------------------------------------------------------------------------------------

interface Chunk {
  readonly type: string;
  readonly body: Uint8Array;
}

function* chunks(bytes: Uint8Array): Generator<Chunk> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    if (at + 12 + length > bytes.length) throw broken('it ends in the middle');
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    yield { type, body: bytes.subarray(at + 8, at + 8 + length) };
    if (type === 'IEND') return;
    at += 12 + length;
  }
  throw broken('it ends in the middle');
}

/** Numbers a pixel by PNG's colour type. */
const PNG_CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
/** What the library reads of a PNG, beside its data. */
const KEPT = ['IHDR', 'PLTE', 'tRNS', 'pHYs', 'IEND'];

function readPng(bytes: Uint8Array): Picture {
  const all = [...chunks(bytes)];
  const head = all[0];
  if (head?.type !== 'IHDR' || head.body.length !== 13) throw broken('no head');
  const view = new DataView(head.body.buffer, head.body.byteOffset, 13);
  const [width, height, depth] = [view.getUint32(0), view.getUint32(4), view.getUint8(8)];
  checkSize(width, height);
  const channels = PNG_CHANNELS[view.getUint8(9)];
  if (!channels) throw broken('an unknown kind of colour');
  const raw = unpacked(all, height * (1 + Math.ceil((width * channels * depth) / 8)));
  const { decode } = require('fast-png') as typeof import('fast-png');
  try {
    const png = decode(assembled([...all.filter(c => KEPT.includes(c.type))], raw));
    const found = plain(png.data, png, width * height);
    const { resolution } = png;
    const dpi = resolution?.unit === 1 ? dpiOf(resolution.x, resolution.y, MM_IN_METRE) : {};
    return { width, height, ...found, ...dpi };
  } catch (error) {
    if (error instanceof PictureError) throw error;
    throw broken(SENSELESS);
  }
}

/** The data of all IDAT chunks, inflated by Node's zlib, no more than `size` bytes and a little (rows of
 *  an interlaced picture begin more often). */
function unpacked(all: readonly Chunk[], size: number): Uint8Array {
  const packed = Buffer.concat(all.filter(c => c.type === 'IDAT').map(c => c.body));
  let raw: Uint8Array;
  try {
    raw = inflateSync(packed, {
      maxOutputLength: Math.ceil(size * 1.1) + 65536,
      finishFlush: constants.Z_SYNC_FLUSH,
    });
  } catch {
    throw broken(SENSELESS);
  }
  if (raw.length < size) throw broken('it ends in the middle');
  return raw;
}

/** The same PNG with its data stored as they are: the library's own inflating is slow and unbounded. */
function assembled(kept: readonly Chunk[], raw: Uint8Array): Uint8Array {
  const data: Chunk = { type: 'IDAT', body: deflateSync(raw, { level: 0 }) };
  const parts = [...kept.slice(0, -1), data, kept.at(-1)!];
  const out = new Uint8Array(8 + parts.reduce((sum, p) => sum + 12 + p.body.length, 0));
  out.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const view = new DataView(out.buffer);
  let at = 8;
  for (const { type, body } of parts) {
    view.setUint32(at, body.length);
    for (let i = 0; i < 4; i++) out[at + 4 + i] = type.charCodeAt(i);
    out.set(body, at + 8);
    at += 12 + body.length;
  }
  return out;
}

type Samples = Uint8Array | Uint8ClampedArray | Uint16Array;

/** Eight bits of grey or of red, green and blue; what is see-through lies on white. */
function plain(
  data: Samples,
  { width, depth, channels, palette }: DecodedPng,
  pixels: number,
): Pick<Picture, 'data' | 'channels'> {
  if (palette || depth < 8) return unfolded(data, depth, width, pixels, palette);
  const eight = depth === 16 ? Uint8Array.from(data, v => v >> 8) : (data as Uint8Array);
  if (channels === 1 || channels === 3) return { data: eight, channels };
  const keep = channels === 2 ? 1 : 3;
  const out = new Uint8Array(pixels * keep);
  for (let i = 0; i < pixels; i++) {
    const alpha = eight[i * channels + keep]!;
    for (let c = 0; c < keep; c++) {
      out[i * keep + c] = onWhite(eight[i * channels + c]!, alpha);
    }
  }
  return { data: out, channels: keep };
}

/** Palettes and fewer bits than eight: pixels share bytes, and each row begins with its own. */
function unfolded(
  data: Samples,
  depth: number,
  width: number,
  pixels: number,
  palette: readonly (readonly number[])[] | undefined,
): Pick<Picture, 'data' | 'channels'> {
  const most = 2 ** depth - 1;
  const row = Math.ceil((width * depth) / 8);
  const out = new Uint8Array(pixels * (palette ? 3 : 1));
  for (let i = 0; i < pixels; i++) {
    const bit = (i % width) * depth;
    const byte = data[Math.floor(i / width) * row + (bit >> 3)]!;
    const value = (byte >> (8 - depth - (bit & 7))) & most;
    if (!palette) out[i] = Math.round((255 * value) / most);
    else {
      const [r = 0, g = 0, b = 0, a = 255] = palette[value] ?? [];
      out.set([onWhite(r, a), onWhite(g, a), onWhite(b, a)], i * 3);
    }
  }
  return { data: out, channels: palette ? 3 : 1 };
}

const onWhite = (value: number, alpha: number) => 255 - (alpha / 255) * (255 - value) + 0.5;

/** Resolution in dots by `per` inches, if it is one that a scanner has. */
function dpiOf(x: number, y: number, per: number): Pick<Picture, 'dpi'> {
  const dpi = [x * per, y * per] as const;
  return dpi.every(d => d >= 40 && d <= 5000) ? { dpi } : {};
}

// ---- JPEG --------------------------------------------------------------------------------------

function readJpeg(bytes: Uint8Array): Picture {
  const { width, height, dpi } = jpegHead(bytes);
  checkSize(width, height);
  const { decode } = require('jpeg-js') as typeof import('jpeg-js');
  try {
    const found = decode(bytes, {
      useTArray: true,
      formatAsRGBA: false,
      tolerantDecoding: false,
      maxResolutionInMP: MOST_PIXELS / 1e6,
      maxMemoryUsageInMB: 1024,
    });
    return { width: found.width, height: found.height, data: found.data, channels: 3, ...dpi };
  } catch {
    throw broken(isWhole(bytes) ? SENSELESS : 'it ends in the middle');
  }
}

/** Ends with the marker for it (ITU-T T.81, B.1.1.3); some cameras pad a file with zeros. */
function isWhole(bytes: Uint8Array): boolean {
  let end = bytes.length;
  while (end > 2 && bytes[end - 1] === 0) end--;
  return bytes[end - 2] === 0xff && bytes[end - 1] === 0xd9;
}

/** Size and resolution from a JPEG's markers (ITU-T T.81, annex B; JFIF 1.02). */
function jpegHead(bytes: Uint8Array) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let dpi: Pick<Picture, 'dpi'> = {};
  for (let at = 2; at + 9 < bytes.length; ) {
    if (bytes[at] !== 0xff) throw broken('a marker is missing');
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      at++;
      continue;
    }
    const length = view.getUint16(at + 2);
    if (marker === 0xe0 && length >= 14 && bytes[at + 4] === 0x4a && at + 16 < bytes.length) {
      const unit = bytes[at + 11];
      const [x, y] = [view.getUint16(at + 12), view.getUint16(at + 14)];
      if (unit === 1 || unit === 2) dpi = dpiOf(x, y, unit === 1 ? 1 : 2.54);
    }
    // Start of frame: all of C0 to CF but the tables among them.
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      return { width: view.getUint16(at + 7), height: view.getUint16(at + 5), dpi };
    }
    at += 2 + length;
  }
  throw broken('no size in its head');
}

/** A picture as a PNG file. */
export function writePicture({ width, height, data, channels }: Picture): Uint8Array {
  const { encode } = require('fast-png') as typeof import('fast-png');
  return encode({ width, height, data, channels, depth: 8 }, { zlib: { level: 3 } });
}
