/** A TrueType font packed as WOFF 1.0 (W3C Recommendation, 13 December 2012, sections 3 to 5): the same
 *  tables, each deflated where that makes it smaller. */
import { deflateSync } from 'node:zlib';

const HEADER = 44;
const ENTRY = 20;
const padded = (n: number) => Math.ceil(n / 4) * 4;

export function asWoff(ttf: Uint8Array): Uint8Array {
  const from = new DataView(ttf.buffer, ttf.byteOffset, ttf.byteLength);
  const count = from.getUint16(4);
  const tables = Array.from({ length: count }, (_, i) => {
    const at = 12 + 16 * i;
    const [tag, sum, offset, length] = [0, 4, 8, 12].map(k => from.getUint32(at + k)) as [
      number,
      number,
      number,
      number,
    ];
    const plain = ttf.subarray(offset, offset + length);
    const packed = deflateSync(plain);
    return { tag, sum, length, bytes: packed.length < length ? packed : plain };
  });
  const size = tables.reduce((n, t) => n + padded(t.bytes.length), HEADER + ENTRY * count);
  const out = new Uint8Array(size);
  const to = new DataView(out.buffer);
  const plainSize = tables.reduce((n, t) => n + padded(t.length), 12 + 16 * count);
  const head = [0x774f4646, from.getUint32(0), size, (count << 16) >>> 0, plainSize];
  const put = (place: number, values: readonly number[]) => {
    for (const [i, value] of values.entries()) to.setUint32(place + 4 * i, value);
  };
  put(0, head);
  let at = HEADER + ENTRY * count;
  tables.forEach(({ tag, sum, length, bytes }, i) => {
    put(HEADER + ENTRY * i, [tag, at, bytes.length, length, sum]);
    out.set(bytes, at);
    at += padded(bytes.length);
  });
  return out;
}
