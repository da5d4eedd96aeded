/** Files that are named as drawings and are something else: told by how they begin, before any parsing. */
import { ReadError } from './read-error.js';

export type CutFileKind = 'SVG' | 'DXF';

const ALLOWED = 'what is read is plain SVG in UTF-8, and DXF in ASCII';
/** Comments and declarations may stand before what tells. */
const LOOKED_AT_BYTES = 2000;

/** How the kinds begin, what they are called and what to do. Of binary kinds the first bytes as published in
 *  their formats (RFC 1952 for gzip, ISO 32000 for PDF, ISO/IEC 15948 for PNG); those of DWG from memory.
 *  Control characters stand as their pictures (␀ for 0). */
const KINDS: readonly (readonly [begins: RegExp, what: string, advice: string])[] = [
  [
    /^␟\x8b/,
    'it is compressed with gzip (an SVGZ)',
    'save it as plain SVG, or unpack it with gunzip',
  ],
  [/^PK␃␄/, 'it is a ZIP archive', 'unpack it, and name the drawing in it'],
  [
    /^AC\d{4}/,
    'it is a DWG, whatever its name says',
    'save it as DXF R12 or R2000, in ASCII; a new name alone does not make it one',
  ],
  [/^AutoCAD Binary DXF/, 'it is a binary DXF', 'save it as DXF R12 or R2000, in ASCII'],
  [/^%PDF-/, 'it is a PDF', 'save the drawing as plain SVG'],
  [/^%!PS/, 'it is PostScript', 'save the drawing as plain SVG'],
  [
    /^(?:\x89PNG|\xff\xd8\xff|GIF8|RIFF)/,
    'it is a picture of pixels',
    'trace it first, and save the traced lines as plain SVG',
  ],
  // With a byte order mark, or without one where the first character is of ASCII.
  [
    /^(?:\xff\xfe|\xfe\xff|[\t\n\r -~]␀|␀[\t\n\r -~])/,
    'its text is in UTF-16',
    'save it as UTF-8 (plain text for a DXF)',
  ],
];

/** Throws `ReadError` where the bytes are no SVG or DXF, or the other of the two than `named`. */
export function checkKind(bytes: Uint8Array, named: CutFileKind): void {
  const begin = shown(bytes.subarray(0, LOOKED_AT_BYTES));
  if (begin.trim() === '' && bytes.length <= LOOKED_AT_BYTES) {
    throw new ReadError(
      `it is empty (${bytes.length} bytes)`,
      '',
      'export the drawing again, and see that the disk is not full',
    );
  }
  for (const [begins, what, advice] of KINDS) {
    if (begins.test(begin)) throw new ReadError(`${what}; ${ALLOWED}`, '', advice);
  }
  const text = begin.replace(/^\xef\xbb\xbf/, '').replace(/<\?[\s\S]*?\?>|<!--[\s\S]*?-->/g, '');
  if (/^\s*<(?:!doctype\s+html|html)\b/i.test(text)) {
    throw new ReadError(
      `it is a page of the web (HTML), not the drawing that may be shown on it; ${ALLOWED}`,
      '',
      'download the drawing itself',
    );
  }
  if (named === 'DXF' && /^\s*<(?:svg|!doctype\s+svg)\b/i.test(text)) {
    throw new ReadError('it is an SVG under the name of a DXF', '', 'let its name end in .svg');
  }
  if (named === 'SVG' && /^(?:\s*999\r?\n.*\r?\n)*\s*0\r?\n\s*SECTION\b/.test(text)) {
    throw new ReadError('it is a DXF under the name of an SVG', '', 'let its name end in .dxf');
  }
}

/** One character a byte. */
const shown = (bytes: Uint8Array): string =>
  Buffer.from(bytes)
    .toString('latin1')
    .replace(/[^\t\n\r -\xff]/g, c => String.fromCodePoint(0x2400 + c.codePointAt(0)!));
