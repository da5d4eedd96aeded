import { expect, it } from 'vitest';
import { type Element, inOrder, misplaced } from './structure.js';

const of = (role: string, children: Element[] = [], alt?: string): Element => ({
  role,
  children,
  text: '',
  ...(alt !== undefined && { alt }),
});

it('elements where they do not belong are found, and figures that say nothing', () => {
  const good = of('Document', [of('L', [of('LI', [of('Lbl'), of('LBody', [of('P')])])])]);
  expect(misplaced([good])).toEqual([]);
  expect(misplaced([of('Document', [of('LI'), of('TD')])])).toEqual([
    'LI in Document',
    'TD in Document',
  ]);
  expect(misplaced([of('Document', [of('Document')])])).toEqual(['Document in Document']);
  expect(misplaced([of('Figure'), of('Figure', [], 'a box')])).toEqual(['Figure without words']);
});

it('elements are listed as they are read', () => {
  const roles = inOrder([of('L', [of('LI', [of('LBody')]), of('LI')]), of('P')]).map(e => e.role);
  expect(roles).toEqual(['L', 'LI', 'LBody', 'LI', 'P']);
});
