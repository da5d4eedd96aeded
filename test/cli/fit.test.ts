/** `foldwright fit` as a person meets it. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { foldwright, inFolder, root } from '../support/command.js';

const ROUND = ['fit', 'round', '--diameter', '40mm', '--height', '20mm', '--count', '6'];
const run = (...argv: string[]) => inFolder(folder => foldwright(argv, folder));

describe('boxes for a treat', () => {
  it('the command of the README works', async () => {
    const readme = readFileSync(join(root, 'README.md'), 'utf8');
    expect(readme).toContain(`npx foldwright ${ROUND.join(' ')}\n`);
    const { code, out, err } = await run(...ROUND);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('6 rounds of 40 mm, 20 mm high; 1 mm clear all round.');
    expect(out).toMatch(/^ +1 {2}\S+ +[\d.]+ x [\d.]+ x [\d.]+ mm {2}/m);
    expect(out).toMatch(/foldwright box \S+ --inside [\d.]+x[\d.]+x[\d.]+mm --stock/);
  });

  it('the command that it tells makes the box that it lists', () =>
    inFolder(async folder => {
      for (const unit of ['40mm', '1 9/16in']) {
        const argv = ['fit', 'round', '--diameter', unit, '--height', '20mm', '--count', '6'];
        const { out } = await foldwright([...argv, '--style', 'flip-lid'], folder);
        const told = /^ {2}foldwright (box .*)$/m.exec(out)![1]!.split(' ');
        const made = await foldwright([...told, '--check'], folder);
        expect([made.code, made.out]).toEqual([0, expect.stringContaining('Every fold closes')]);
      }
    }));

  it('the insert that it tells goes into the box', () =>
    inFolder(async folder => {
      const small = ['--size', '30x30x20mm', '--count', '4', '--layers', '1'];
      const { out } = await foldwright(['fit', 'block', ...small, '--insert', 'divider'], folder);
      const [box, insert] = [...out.matchAll(/^ {2}foldwright (box .*)$/gm)].map(m => m[1]!);
      expect(insert).toContain('box divider');
      expect(insert).toContain(/--inside \S+/.exec(box!)![0]);
      for (const told of [box!, insert!]) {
        const made = await foldwright([...told.split(' '), '--check'], folder);
        expect(made.err.replace(/^checking.*$/gm, '').trim(), told).toBe('');
        expect(made.code).toBe(0);
      }
    }));

  it('gives JSON with the place of every piece', async () => {
    const { code, out } = await run(...ROUND, '--json', '--most', '3');
    const { treat, boxes } = JSON.parse(out);
    expect(code).toBe(0);
    expect(treat.count).toBe(6);
    expect(boxes.map((b: { rank: number }) => b.rank)).toEqual([1, 2, 3]);
    for (const { arrangement, inside, perSheet } of boxes) {
      expect(arrangement.places.length).toBe(6);
      expect(arrangement.inside).toEqual(inside);
      expect(perSheet).toBeGreaterThan(0);
    }
  });

  it('draws SVG and PNG, of the box that is picked', () =>
    inFolder(async folder => {
      const made = await foldwright([...ROUND, '--out', 'fit.svg', '--pick', '2'], folder);
      expect(made.out).toContain('Drawn in fit.svg.');
      expect(made.out).toContain('To make number 2:');
      expect(readFileSync(join(folder, 'fit.svg'), 'utf8')).toMatch(/^<svg /);
      await foldwright(['fit', 'hazelnut-ball', '--out', 'fit.png'], folder);
      expect(readFileSync(join(folder, 'fit.png')).subarray(1, 4).toString()).toBe('PNG');
    }));

  it('lists only the style that is named, in more sizes', async () => {
    const { out } = await run(...ROUND, '--style', 'flip-lid', '--most', '5');
    expect(out.match(/^ +\d {2}flip-lid /gm)?.length).toBe(5);
    expect(out).not.toMatch(/^ +\d {2}(?!flip-lid)/m);
  });

  it('takes a preset, and another count of it', async () => {
    const { out } = await run('fit', 'cider-caramel', '--count', '20');
    expect(out).toContain('20 blocks of 32 mm x 20 mm x 17 mm');
  });

  it('says so when nothing fits a sheet', async () => {
    const { code, out } = await run('fit', 'ball', '--diameter', '180mm');
    expect(code).toBe(0);
    expect(out).toContain('None of them fits a sheet');
  });
});

describe('how many go into a box', () => {
  it('counts and describes', async () => {
    const argv = ['fit', 'ball', '--diameter', '24mm', '--inside', '6x2x1.1in'];
    const { code, out } = await run(...argv);
    // Less 2 mm, 150.4 x 48.8: six in a row (149), and straight rows would need 49; staggered, 45.7.
    expect([code, out.split('\n')[0]]).toEqual([0, '11 go into 152.4 x 50.8 x 27.9 mm.']);
    const more = await run(...argv, '--count', '20');
    expect([more.code, more.out]).toEqual([1, expect.stringContaining('20 were asked for')]);
  });
  it('none is an answer, with exit code 1', async () => {
    const { code, out } = await run('fit', 'ball', '--diameter', '30mm', '--inside', '6x2x1in');
    expect([code, out]).toEqual([1, expect.stringContaining('Not one goes into')]);
  });
});

describe('what cannot be', () => {
  it.each([
    [['fit', 'carmel'], /there is no treat "carmel"/, /allowed: block, round, ball, pouch, stick/],
    [['fit', 'round', '--diameter', '4cm'], /a round needs height/, /\^/],
    [['fit', 'ball', '--diameter', 'big'], /"big" is not a length/, /63\.5mm/],
    [['fit', 'cupcake', '--height', '3cm'], /has measures of its own/, /name a shape/],
    [['fit', 'ball', '--diameter', '20', '--style', 'divider'], /not sized by a treat/, /flip-lid/],
    [['fit', 'shortbread-finger', '--insert', 'platform'], /round holes/, /divider/],
    [[...ROUND, '--rows', '9'], /no arrangement of 9 rows/, /columns x rows x layers/],
    [[...ROUND, '--lie', 'side'], /lie of a round "side"/, /any, flat, upright/],
    [[...ROUND, '--pick', '99'], /no such box/, /from 1 to \d+/],
    [[...ROUND, '--most', '0'], /--most/, /from 1 to 100/],
    [[...ROUND, '--out', 'a.pdf'], /a\.pdf/, /\.svg or \.png/],
    [[...ROUND, '--out', 'nowhere/a.svg'], /cannot be written/, /nowhere/],
    [[...ROUND, '--stock', 'silk'], /there is no stock "silk"/, /allowed/],
  ])('%j is told with what is allowed, exit code 2', async (argv, what, allowed) => {
    const { code, err, out } = await run(...argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(what);
    expect(err).toMatch(allowed);
  });
  it('writes nothing then', () =>
    inFolder(async folder => {
      await foldwright([...ROUND, '--out', 'a.svg', '--pick', '99'], folder);
      expect(existsSync(join(folder, 'a.svg'))).toBe(false);
    }));
});
