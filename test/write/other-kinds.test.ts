/** What is no SVG or DXF is called by its name. First bytes from the formats: RFC 1952 (made here by zlib),
 *  ISO 32000, ISO/IEC 15948; DWG from memory. */
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { type CutFileKind, checkKind, ReadError } from '../../src/write/index.js';

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"><path d="M0 0h9"/></svg>';
const DXF = '  0\r\nSECTION\r\n  2\r\nENTITIES\r\n  0\r\nENDSEC\r\n  0\r\nEOF\r\n';
const latin1 = (s: string) => Buffer.from(s, 'latin1');
const utf16be = (s: string) => Buffer.from(s, 'utf16le').swap16();

const told = (bytes: Uint8Array, named: CutFileKind): string => {
  try {
    checkKind(bytes, named);
    return '';
  } catch (error) {
    if (error instanceof ReadError) return error.message;
    throw error;
  }
};

describe('the kind of a file', () => {
  const cases: readonly [what: string, bytes: Uint8Array, kind: CutFileKind, told: RegExp][] = [
    ['SVGZ', gzipSync(SVG), 'SVG', /gzip \(an SVGZ\).*plain SVG.*gunzip/],
    ['a DXF in gzip', gzipSync(DXF), 'DXF', /gzip/],
    [
      'UTF-16 with a mark',
      Buffer.from(`\ufeff${SVG}`, 'utf16le'),
      'SVG',
      /UTF-16.*save it as UTF-8/,
    ],
    ['UTF-16 without', Buffer.from(SVG, 'utf16le'), 'SVG', /UTF-16/],
    ['UTF-16, high byte first, with a mark', utf16be(`\ufeff${SVG}`), 'SVG', /UTF-16/],
    ['UTF-16, high byte first, without', utf16be(SVG), 'SVG', /UTF-16/],
    ['a DXF in UTF-16', Buffer.from(DXF, 'utf16le'), 'DXF', /UTF-16/],
    ['DWG', latin1('AC1032\0\0\0\0\x01'), 'DXF', /DWG.*DXF R12 or R2000.*new name alone/],
    ['DWG as SVG', latin1('AC1015\0\0\0\0\x01'), 'SVG', /DWG/],
    ['binary DXF', latin1('AutoCAD Binary DXF\r\n\x1a\0\0\0'), 'DXF', /binary DXF.*in ASCII/],
    ['HTML', latin1('\n<!DOCTYPE html><html><body><svg/></body></html>'), 'SVG', /HTML.*download/],
    ['HTML after a comment', latin1('<!-- saved --><HTML lang="en"><br>'), 'DXF', /HTML/],
    ['PDF', latin1('%PDF-1.7\n'), 'SVG', /a PDF.*plain SVG/],
    ['PNG', latin1('\x89PNG\r\n\x1a\n'), 'SVG', /pixels.*trace/],
    ['ZIP', latin1('PK\x03\x04'), 'SVG', /ZIP/],
    ['nothing', Buffer.alloc(0), 'DXF', /empty \(0 bytes\).*export.*again/],
    ['blanks', latin1(' \n\n'), 'SVG', /empty \(3 bytes\)/],
    ['SVG as DXF', latin1(`<?xml version="1.0"?>\n${SVG}`), 'DXF', /an SVG under.*\.svg/],
    ['DXF as SVG', latin1(DXF), 'SVG', /a DXF under.*\.dxf/],
    ['DXF as SVG, after a remark', latin1(`999\r\npears\r\n${DXF}`), 'SVG', /a DXF under/],
  ];
  it.each(cases)('%s is told', (_what, bytes, named, words) => {
    expect(told(bytes, named)).toMatch(words);
  });

  it.each<[string, Uint8Array, CutFileKind]>([
    ['SVG', latin1(SVG), 'SVG'],
    [
      'SVG with mark, declaration, comment and type',
      Buffer.from(`\ufeff<?xml version="1.0"?><!-- a --><!DOCTYPE svg>${SVG}`),
      'SVG',
    ],
    ['DXF', latin1(DXF), 'DXF'],
    ['DXF after a remark, in Latin-1', latin1(`999\nbl\xe4tter\n${DXF}`), 'DXF'],
  ])('%s passes', (_what, bytes, named) => {
    expect(told(bytes, named)).toBe('');
  });
});
