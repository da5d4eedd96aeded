/** Parameters that contradict each other: exit 2, with the parameter, the bound and what to change. */
import { describe, expect, it } from 'vitest';
import { foldwright, inFolder } from '../support/command.js';

const run = (...argv: string[]) => inFolder(folder => foldwright(['box', ...argv], folder));
const flip = ['flip-lid', '--inside', '6x2x1in'];

describe('refused', () => {
  it.each([
    [
      'a tab deeper than the wall',
      [...flip, '--set', 'tab=60mm'],
      /tab of flip-lid cannot be 60 mm/,
      /at most 24\.9 mm, half of the end wall/,
      /make the tab smaller/,
    ],
    [
      'petals on a 2-gon',
      ['prism', '--inside', '60x60x50mm', '--set', 'sides=2', '--set', 'ends=petal'],
      /sides of prism cannot be 2/,
      /a whole number from 3 to 12/,
      /give 3 or more; it is this: Number of sides/,
    ],
    [
      'a window larger than its panel',
      [...flip, '--feature', 'window on=lid size=300mm'],
      /size of window cannot be 300 mm/,
      /at most 150\.65 mm/,
      /make the window smaller/,
    ],
    [
      'a slot through a hinge',
      [...flip, '--feature', 'ribbon on=base at=0,22mm'],
      /at of ribbon cannot be 0 mm, 22 mm/,
      /at least 1 mm inside the fold to back/,
      /move it with at/,
    ],
    [
      'a divider of more places than the box has room for',
      ['divider', '--inside', '30x20x20mm', '--set', 'columns=12'],
      /columns of divider cannot be 12/,
      /at most 9, so that each place has 3 mm: 12 leave it 2\.\d+ mm/,
      /ask for fewer places or a larger box/,
    ],
    [
      'a platform higher than its box',
      ['platform', '--inside', '60x40x20mm', '--set', 'rise=60mm'],
      /rise of platform cannot be 60 mm/,
      /at most 20 mm, the height of the box/,
      /make the legs shorter/,
    ],
  ] as const)('%s', async (_, argv, param, bound, advice) => {
    const { code, out, err } = await run(...argv);
    expect([code, out]).toEqual([2, '']);
    for (const said of [param, bound, advice]) expect(err).toMatch(said);
  });
  it('what is possible is not', async () => {
    const { code, err } = await run(...flip, '--set', 'tab=20mm', '--check');
    expect(code, err).toBe(0);
  });
});
