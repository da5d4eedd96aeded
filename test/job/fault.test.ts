import { describe, expect, it } from 'vitest';
import { faultAt, formatFault, formatFaults, inOrder, linesOf } from '../../src/job/fault.js';

const at = (text: string, word: string, message = 'wrong', more = {}) => {
  const start = text.indexOf(word);
  const span = { start, end: start + word.length };
  return faultAt({ file: 'f.yaml', text }, linesOf(text), span, message, more);
};

describe('a fault', () => {
  it('tells file, line, column, the line and a caret under the word', () => {
    expect(formatFault(at('one: 1\ntwo: second', 'second'))).toBe(
      'f.yaml:2:6: wrong\n  2 | two: second\n           ^^^^^^',
    );
  });

  it('tells what is allowed and what to do', () => {
    const fault = at('a: b', 'b', 'no b', { allowed: 'c, d', hint: 'did you mean c?' });
    expect(formatFault(fault)).toBe(
      'f.yaml:1:4: no b\n  1 | a: b\n         ^\n  allowed: c, d\n  did you mean c?',
    );
  });

  it('counts characters, not bytes or halves of characters', () => {
    expect(at('🍎🍐: pear', 'pear')).toMatchObject({ column: 5, width: 4 });
    expect(at('"é": x', 'x').column).toBe(6);
  });

  it('ends its caret with the line, of whatever ending', () => {
    const text = 'a: [b,\r\n  c]\r\n';
    const fault = faultAt({ file: 'f', text }, linesOf(text), { start: 3, end: 12 }, 'x');
    expect(fault).toMatchObject({ line: 1, column: 4, width: 3, source: 'a: [b,' });
  });

  it('stands at the last line when the text has ended', () => {
    const fault = faultAt({ file: 'f', text: 'a' }, linesOf('a'), { start: 9, end: 9 }, 'x');
    expect(fault).toMatchObject({ line: 1, column: 2, width: 1 });
  });

  it('shows the part of a long line that holds it', () => {
    const told = formatFault(at(`${'x'.repeat(500)}HERE${'y'.repeat(500)}`, 'HERE'));
    const [, line, caret] = told.split('\n');
    expect(line!.length).toBeLessThan(110);
    expect(line!.slice(caret!.indexOf('^'), caret!.lastIndexOf('^') + 1)).toBe('HERE');
  });

  it('keeps tabs in step and orders out of the terminal', () => {
    const told = formatFault(at('\ta\u001b[31m: \u202eb', 'b', 'bad \u0007'));
    expect(told).toBe('f.yaml:1:11: bad \ufffd\n  1 |  a\ufffd[31m: \ufffdb\n                ^');
  });

  it('of a file as a whole has no place', () => {
    const fault = { file: 'f', line: 0, column: 0, width: 1, message: 'too large', source: '' };
    expect(formatFault(fault)).toBe('f: too large');
  });
});

describe('faults', () => {
  const text = 'a\nb\nc\n';
  it('are told in the order of the text, each once', () => {
    const all = [at(text, 'c'), at(text, 'a'), at(text, 'c'), at(text, 'b')];
    expect(inOrder(all).map(f => f.source)).toEqual(['a', 'b', 'c']);
    expect(formatFaults(all)).toMatch(/\n\n3 faults; nothing was made\.$/);
  });
  it('one alone is not counted', () => {
    expect(formatFaults([at(text, 'a')])).not.toMatch(/faults/);
  });
  it('of several files stay together', () => {
    const other = { ...at(text, 'a'), file: 'g' };
    expect(inOrder([at(text, 'b'), other, at(text, 'a')]).map(f => f.file)).toEqual([
      'f.yaml',
      'f.yaml',
      'g',
    ]);
  });
});
