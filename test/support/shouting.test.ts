import { describe, expect, it } from 'vitest';
import { quietWords, SHOUTING, saidIn } from './shouting.js';

describe('what no catalogue said', () => {
  it('is found in a text', () => {
    expect(quietWords('FOLD UP the LID, 12 mm')).toEqual(['the']);
    expect(quietWords('1/2 in ACROSS, in all')).toEqual(['in', 'all']);
    expect(quietWords('KRAFT kraft-12', ['kraft-12'])).toEqual([]);
  });
  it('is found in a page: its text, and what it tells', () => {
    const page = '<p class="x">A <b>lid</b></p><img alt="its net"><script>"no"</script>';
    expect(quietWords(saidIn(page))).toEqual(['lid', 'its', 'net']);
  });
  it('is nothing of the loud catalogue itself', () => {
    expect(SHOUTING.fold('up', ['lid'], 1)).toBe('FOLD UP THE LID.');
    expect(SHOUTING.foot).toBe('PAGE {page} OF {pages}');
    expect(SHOUTING.toolsOf(true)[0]).toMatch(/^[^a-z]*$/);
  });
});
