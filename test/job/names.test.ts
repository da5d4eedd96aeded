import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultOfName, plainName, titleFrom } from '../../src/job/names.js';
import { distanceOf, nearest } from '../../src/job/nearest.js';

describe('names of files', () => {
  it.each([
    'a',
    'cider-caramels',
    'Box_2',
    'pear-fudge-2.5x2x1',
    '6x2x1',
    'console',
    'a'.repeat(60),
  ])('%s is one', name => expect(faultOfName(name)).toBeUndefined());

  // Reserved names: Microsoft, "Naming Files, Paths, and Namespaces".
  it.each([
    'con',
    'PRN',
    'aux',
    'nul',
    'Nul.txt',
    'com0',
    'com9.box',
    'lpt1',
    '..',
    'a..b',
    '../a',
    'a/b',
    'a\\b',
    '.a',
    'a.',
    'a ',
    ' a',
    '',
    ' ',
    '-a',
    'a\u0000',
    'a\nb',
    'a:b',
    'a*',
    'ä',
    'a\u202eb',
    'a'.repeat(61),
    '~',
    '$HOME',
    '%TEMP%',
    'a|b',
    'a"b',
    'a<b',
  ])('%j is none', name => expect(faultOfName(name)).toBeDefined());

  it('offer a safe name that is one (300 runs)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 90 }), text => {
        const hint = faultOfName(text)?.hint;
        const offered = /^write (\S+);/.exec(hint ?? '')?.[1];
        if (hint) expect(faultOfName(offered!)).toBeUndefined();
        const plain = plainName(text);
        expect(plain).toMatch(/^(?:[a-z0-9][a-z0-9._-]{0,59})?$/);
      }),
      { numRuns: 300, seed: 5 },
    );
    expect(plainName('Äpfel & Nüsse: 2½ in')).toBe('apfel-nusse-21-2-in');
  });

  it('make titles', () => expect(titleFrom('cider-caramels_2')).toBe('Cider caramels 2'));
});

describe('nearest', () => {
  const styles = ['flip-lid', 'lid-and-base', 'straight-tuck', 'pillow'];
  it.each([
    ['flip_lid', 'flip-lid'],
    ['Flip Lid', 'flip-lid'],
    ['fliplid', 'flip-lid'],
    ['pilow', 'pillow'],
    ['pillwo', 'pillow'],
    ['straight', 'straight-tuck'],
    ['lid-base', 'lid-and-base'],
  ])('%s is %s', (name, near) => expect(nearest(name, styles)).toBe(near));

  it.each(['', 'x', 'carton', 'z'.repeat(1000)])('%s is none', name =>
    expect(nearest(name, styles)).toBeUndefined(),
  );

  // Damerau's four slips count one each; kitten/sitting is Levenshtein's textbook example.
  it.each([
    ['kitten', 'sitting', 3],
    ['ab', 'ba', 1],
    ['abc', 'ab', 1],
    ['abc', 'abcd', 1],
    ['abc', 'axc', 1],
    ['', 'abc', 3],
    // Alignment is not edited twice: three, where the unrestricted distance is two.
    ['ca', 'abc', 3],
  ])('%j to %j is %i', (a, b, n) => {
    expect(distanceOf(a, b)).toBe(n);
    expect(distanceOf(b, a)).toBe(n);
  });
});
