/** A cutter of the person's own: flags or answers, written once, known by its name. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutterText } from '../../src/job/cutter-command.js';
import { parseCutter } from '../../src/job/presets.js';
import { type Cutter, FOLD_SIDES, FOLD_WAYS } from '../../src/model.js';
import { foldwright, inFolder } from '../support/command.js';

const FILE = 'presets/cutters/mine.yaml';
const readIn = (folder: string) => {
  const read = parseCutter('mine', FILE, readFileSync(join(folder, FILE), 'utf8'));
  if (!('value' in read)) throw new Error(JSON.stringify(read.faults));
  return read.value;
};

it.each(['blade', 'fold', 'kerf'])(
  'what the %s card says to write can be typed as it stands',
  card =>
    inFolder(async folder => {
      expect((await foldwright(['testcard', card, '--out', 'cards'], folder)).code).toBe(0);
      const page = readFileSync(join(folder, 'cards', `${card}.html`), 'utf8');
      const typed = /<code>foldwright (cutter new [^<]+)<\/code>/.exec(page)![1]!;
      const ran = await foldwright(typed.split(' '), folder);
      expect(ran.code, ran.err).toBe(0);
      expect(readIn(folder).id).toBe('mine');
    }),
);

describe('cutter new', () => {
  it('writes a preset that jobs and commands in the folder know', () =>
    inFolder(async folder => {
      const ran = await foldwright(
        ['cutter', 'new', 'mine', '--offset', '0.3mm', '--width', '10in', '--folds', 'perforation'],
        folder,
      );
      expect(ran.code, ran.err).toBe(0);
      expect(ran.out).toContain(`wrote ${FILE}`);
      const cutter = readIn(folder);
      expect(cutter).toMatchObject({ width: 254, height: 304.8, blade: { offset: 0.3 } });
      expect(cutter.folds!.by).toBe('perforation');
      expect((await foldwright(['list', 'cutters'], folder)).out).toContain('mine');
      expect((await foldwright(['show', 'cutter', 'mine'], folder)).out).toContain('0.3mm');
      const box = ['box', 'flip-lid', '--inside', '60x40x20', '--cutter', 'mine'];
      const made = await foldwright(box, folder);
      expect(made.code, made.err).toBe(0);
      expect(made.out).toContain('its offset of 0.3 mm');
      expect(made.out).toContain('cut through in dashes');
      // Elsewhere it is not known.
      await inFolder(async other => {
        expect((await foldwright(box, other)).err).toContain('mine');
      });
    }));

  /** Answers in turn, nothing said after the last; and what was asked. */
  const person = (answers: readonly (string | undefined)[]) => {
    const asked: string[] = [];
    const ask = async (question: string) => {
      asked.push(question);
      return asked.length > answers.length ? '' : answers[asked.length - 1];
    };
    return { asked, ask };
  };

  it('asks on a terminal, with what it is like as the answer to nothing', () =>
    inFolder(async folder => {
      const { asked, ask } = person(['', '', '', '', '0.35mm', '', 'file', 'pen', '1mm']);
      const ran = await foldwright(['cutter', 'new', 'mine'], folder, { ask });
      expect(ran.code, ran.err).toBe(0);
      expect(asked).toHaveLength(9);
      expect(asked[4]).toMatch(/offset.*\[0\.25mm\]/);
      const { blade, folds } = readIn(folder);
      expect(blade).toEqual({ offset: 0.35, overcut: 0.5, compensatedBy: 'file' });
      expect(folds).toMatchObject({ by: 'pen', setback: 1 });
    }));

  it('asks of a beam its kerf, and of perforated folds their dashes', () =>
    inFolder(async folder => {
      const { asked, ask } = person(['', '', '', 'beam', '0.2mm', 'file', 'perforation', '3', '1']);
      const ran = await foldwright(['cutter', 'new', 'mine'], folder, { ask });
      expect(ran.code, ran.err).toBe(0);
      expect(asked.join()).not.toContain('overcut');
      expect(asked[4]).toMatch(/burns away \(testcard kerf\): /);
      expect(readIn(folder).blade).toMatchObject({ kerf: 0.2, compensatedBy: 'file' });
      expect(readIn(folder).folds).toMatchObject({ by: 'perforation', dash: 3, gap: 1 });
    }));

  it('asks again where an answer cannot be, and keeps the others', () =>
    inFolder(async folder => {
      const { asked, ask } = person(['9in', '', '', '', '30mm', '', '', '', '0.3mm']);
      const ran = await foldwright(['cutter', 'new', 'mine'], folder, { ask });
      expect(ran.code, ran.err).toBe(0);
      expect(ran.out).toMatch(/offset[\s\S]*30 ?mm[\s\S]*Once more/);
      expect(asked.filter(q => q.includes('widest'))).toHaveLength(1);
      expect(asked.filter(q => q.includes("blade's offset"))).toHaveLength(2);
      expect(readIn(folder)).toMatchObject({ width: 228.6, blade: { offset: 0.3 } });
    }));

  it('stops where the person ends the input, and asks nothing for a name that is taken', () =>
    inFolder(async folder => {
      const ended = await foldwright(['cutter', 'new', 'mine'], folder, person(['', undefined]));
      expect([ended.code, ended.err]).toEqual([2, expect.stringContaining('nothing was written')]);
      expect(existsSync(join(folder, FILE))).toBe(false);
      await foldwright(['cutter', 'new', 'mine', '--offset', '0.3mm'], folder);
      const again = person([]);
      expect((await foldwright(['cutter', 'new', 'mine'], folder, again)).code).toBe(2);
      expect(again.asked).toEqual([]);
    }));

  it.each([
    [['mine', '--offset', '9mm'], 'offset'],
    [['mine', '--like', 'mat'], 'mat'],
    [['a/b'], 'a/b'],
    [['mine', '--kind', 'saw'], 'saw'],
    [['mine', '--kind', 'beam'], 'kerf'],
    [['mine', '--passes', '0'], 'passes'],
  ])('refuses %j in words, and writes nothing', (argv, word) =>
    inFolder(async folder => {
      const ran = await foldwright(['cutter', 'new', ...argv], folder);
      expect(ran.code).toBe(2);
      expect(ran.err).toContain(word);
      expect(existsSync(join(folder, 'presets'))).toBe(false);
    }),
  );

  it('keeps one that is there, unless told otherwise', () =>
    inFolder(async folder => {
      const made = (...more: string[]) =>
        foldwright(['cutter', 'new', 'mine', '--offset', '0.2mm', ...more], folder);
      expect((await made()).code).toBe(0);
      expect((await made()).err).toContain('--force');
      expect((await made('--force')).code).toBe(0);
    }));
});

it('the text of a cutter reads back as the cutter', () => {
  const mm = (min: number, max: number) =>
    fc.integer({ min: min * 100, max: max * 100 }).map(v => v / 100);
  const speed = fc.integer({ min: 1, max: 500 });
  fc.assert(
    fc.property(
      fc.record({
        width: mm(100, 900),
        height: mm(100, 900),
        margin: mm(0, 20),
        blade: fc.oneof(
          fc.record({
            offset: mm(0.01, 2),
            overcut: mm(0, 5),
            compensatedBy: fc.constantFrom('file', 'cutter'),
          }),
          fc.record({
            offset: fc.constant(0),
            overcut: fc.constant(0),
            compensatedBy: fc.constantFrom('file', 'cutter'),
            kerf: mm(0.01, 2),
          }),
          fc.record({
            offset: fc.constant(0),
            overcut: mm(0, 5),
            compensatedBy: fc.constantFrom('file', 'cutter'),
          }),
        ),
        folds: fc.record({
          by: fc.constantFrom(...FOLD_WAYS),
          dash: mm(0.5, 20),
          gap: mm(0.3, 20),
          passes: fc.integer({ min: 1, max: 5 }),
          setback: mm(0, 5),
          sides: fc.constantFrom(...FOLD_SIDES),
        }),
        speed: fc.record({
          draw: speed,
          score: speed,
          perforate: speed,
          cut: speed,
          register: speed,
          travel: speed,
        }),
      }),
      parts => {
        // What goes through the paper, or is drawn on it, is made from one side.
        const sided = parts.folds.by === 'tool' || parts.folds.by === 'light-cut';
        const folds = { ...parts.folds, ...(!sided && { sides: 'face' }) };
        const cutter = { id: 'own', summary: 'Own: "quoted" #1', ...parts, folds } as Cutter;
        const read = parseCutter('own', 'own.yaml', cutterText(cutter));
        expect('value' in read ? read.value : read.faults).toEqual(cutter);
      },
    ),
    { seed: 3, numRuns: 60 },
  );
});
