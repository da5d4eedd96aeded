/** What a person writes down at the register marks. */
import { describe, expect, it } from 'vitest';
import { readMisses, readPositions } from '../../src/job/marks.js';

const MARKS = ['lower-left', 'lower-right', 'upper-right', 'upper-left', 'fifth'];
const value = (read: ReturnType<typeof readMisses>) => {
  if ('fault' in read) throw new Error(read.fault);
  return read.value.map(({ name, by }) => [name, ...by]);
};
const fault = (read: ReturnType<typeof readMisses>) => ('fault' in read ? read.fault : 'no fault');

describe('misses', () => {
  it('are pairs of millimetres by mark', () => {
    expect(value(readMisses('lower-left 0.4,-0.2; fifth -.1 , +0.3;', MARKS))).toEqual([
      ['lower-left', 0.4, -0.2],
      ['fifth', -0.1, 0.3],
    ]);
    // The minus sign of good typography.
    expect(value(readMisses('fifth −0.5,0', MARKS))).toEqual([['fifth', -0.5, 0]]);
  });
  it('with a comma for a point are not guessed at', () => {
    expect(fault(readMisses('lower-left 0,4,-0,2', MARKS))).toContain('as in lower-left 0.4,-0.2');
    expect(fault(readMisses('lower-left 0,4,1', MARKS))).toContain('decimals with a point');
    // Nobody measures minus nothing to the right.
    expect(fault(readMisses('fifth -0,6', MARKS))).toContain('fifth -0.6,0');
    expect(value(readMisses('fifth 0,-6', MARKS))).toEqual([['fifth', 0, -6]]);
  });
  it('are asked about where one number with a comma looks like two', () => {
    for (const [text, one, two] of [
      ['0,4', '0.4,0', '0.0,4.0'],
      ['1,2', '1.2,0', '1.0,2.0'],
      ['-1,2', '-1.2,0', '-1.0,2.0'],
    ]) {
      const told = fault(readMisses(`fifth 0,0; lower-left ${text}; upper-right 0,3`, MARKS));
      expect(told).toContain(`"lower-left ${text}": is "${text}" one number`);
      expect(told).toContain(`lower-left ${one} for the one, lower-left ${two} for the other`);
    }
    // Who writes points, signs or blanks means two numbers.
    for (const text of [
      'fifth 0.0,4.0',
      'fifth 0, 4',
      'fifth 4,0; upper-left .3,0',
      'fifth 0,-4',
    ]) {
      expect(fault(readMisses(text, MARKS)), text).toBe('no fault');
    }
    expect(value(readMisses('fifth 0,4; upper-left .3,0', MARKS))[0]).toEqual(['fifth', 0, 4]);
  });
  it.each([
    ['lower-lft 1,1', 'did you mean lower-left?'],
    ['centre 1,1', 'Its marks are lower-left, lower-right'],
    ['fifth 1', 'a mark and two numbers'],
    ['fifth 1,two', 'a mark and two numbers'],
    ['fifth 0x1,1e3', 'a mark and two numbers'],
    ['fifth 40,0', 'no slip of the printer'],
    ['fifth 1.0,1; fifth 1,2', 'fifth is given twice'],
    ['', 'no mark is named'],
  ])('%s: %s', (text, words) => {
    expect(fault(readMisses(text, MARKS))).toContain(words);
  });
});

describe('positions', () => {
  it('are a pair a line', () => {
    expect(value(readPositions('lower-left: [12.4, 9.8]\nfifth: [70, 10]\n', MARKS))).toEqual([
      ['lower-left', 12.4, 9.8],
      ['fifth', 70, 10],
    ]);
  });
  it.each([
    ['lower-left: 12', 'two numbers'],
    ['lower-left: [1, 2, 3]', 'lower-left: [1,2,3]: allowed are two numbers'],
    ['lower-left: [11,4, 9,2]', 'as in "lower-left: [11.4, 9.2]"'],
    ['lower-lefft: [1, 2]', 'did you mean lower-left?'],
    ['lower-left: [1, .nan]', 'two numbers'],
    ['- 1', 'no marks'],
    ['', 'no marks'],
    ['{}', 'no marks'],
    ['a: [', 'not YAML'],
    ['upper: [1, 2]', 'Its marks are'],
    ['a: &a [1, 2]\nb: *a', 'not YAML'],
    ['# '.padEnd(30_000, 'x'), 'characters'],
  ])('%s: %s', (text, words) => {
    expect(fault(readPositions(text, MARKS))).toContain(words);
  });
});
