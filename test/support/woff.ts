/** WOFF 1.0 (W3C recommendation, 2012) unpacked to the sfnt inside it, for readers that know no
 *  WOFF. */
import { inflateSync } from 'node:zlib';

export function sfntOf(woff: Uint8Array): Uint8Array {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  if (view.getUint32(0) !== 0x774f4646) throw new RangeError('not a WOFF file');
  const count = view.getUint16(12);
  const tables = Array.from({ length: count }, (_, i) => {
    const at = 44 + 20 * i;
    const [tag, offset, packed, length, sum] = [0, 4, 8, 12, 16].map(k => view.getUint32(at + k));
    const bytes = woff.subarray(offset!, offset! + packed!);
    return { tag: tag!, sum: sum!, data: packed! < length! ? inflateSync(bytes) : bytes, length };
  });
  if (tables.some(t => t.data.length !== t.length)) throw new RangeError('a WOFF table is cut off');
  const padded = (n: number) => (n + 3) & ~3;
  const head = 12 + 16 * count;
  const out = new Uint8Array(tables.reduce((n, t) => n + padded(t.data.length), head));
  const to = new DataView(out.buffer);
  const power = 2 ** Math.floor(Math.log2(count));
  to.setUint32(0, view.getUint32(4));
  to.setUint16(4, count);
  to.setUint16(6, power * 16);
  to.setUint16(8, Math.log2(power));
  to.setUint16(10, count * 16 - power * 16);
  let at = head;
  tables.forEach((t, i) => {
    [t.tag, t.sum, at, t.data.length].forEach((v, k) => {
      to.setUint32(12 + 16 * i + 4 * k, v);
    });
    out.set(t.data, at);
    at += padded(t.data.length);
  });
  return out;
}
