import { describe, expect, it } from 'vitest';
import { withOwnFlags } from '../../src/cli/own-flags.js';
import { foldwright, inFolder } from '../support/command.js';

const COMMANDS = [
  { name: () => 'box', options: [{ long: '--inside' }, { long: '--check' }] },
  { name: () => 'decor', options: [{ long: '--size' }] },
  { name: () => 'fit', options: [] },
];
const plain = (...argv: string[]) => withOwnFlags(argv, COMMANDS);

describe('a parameter as a flag', () => {
  it('is set, with its value beside it or after an equals sign', async () => {
    expect(await plain('box', 'prism', '--sides', '6', '--inside', 'x')).toEqual([
      ...['box', 'prism', '--set', 'sides=6', '--inside', 'x'],
    ]);
    expect(await plain('decor', 'label', '--text=a=b', '--size', '5')).toEqual([
      ...['decor', 'label', '--set', 'text=a=b', '--size', '5'],
    ]);
  });
  it('of no such style, of another command, or unknown, is left for the command to refuse', async () => {
    for (const argv of [
      ['box', 'prism', '--sidse', '6'],
      ['box', 'nothing', '--sides', '6'],
      ['fit', 'round', '--sides', '6'],
      ['--version'],
      [],
    ]) {
      expect(await plain(...argv)).toEqual(argv);
    }
  });
  it('makes a hexagon, and a wrong one is told by its bound', () =>
    inFolder(async folder => {
      const ask = ['box', 'prism', '--inside', '60x60x80mm', '--check'];
      expect((await foldwright([...ask, '--sides', '6'], folder)).code).toBe(0);
      const two = await foldwright([...ask, '--sides', '2'], folder);
      expect(two.code).toBe(2);
      expect(two.err).toContain('3 to 12');
      const typo = await foldwright([...ask, '--sidse', '6'], folder);
      expect(typo.code).toBe(2);
      expect(typo.err).toContain('unknown option');
      expect(typo.err).toContain('The parameters of prism: --sides, --ends,');
    }));
});
