/** Boxes rounded for scoring by hand: every mark on the ruler, and the treat still fits. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { drawNet } from '../../src/fold/index.js';
import { recipeFor, roundForHand, roundingWords } from '../../src/guide/index.js';
import type { BoxSpec, Inside, ParamValues } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { expectSound } from '../support/nets.js';

const SIXTEENTH = 25.4 / 16;
const style = (id: string) => STYLES.find(s => s.id === id)!;
const SQUARE = [
  'flip-lid',
  'tuck-tray',
  'lid-and-base',
  'sleeve-and-tray',
  'straight-tuck',
  'reverse-tuck',
];

function rounded(s: BoxStyle, spec: BoxSpec, step: number, paper?: number) {
  const box = roundForHand(s, spec, fillParams(s.params, {}), step, paper);
  return { ...box, nets: s.build(box.spec, box.values as ReturnType<typeof fillParams>) };
}

describe.each(SQUARE.flatMap(id => [1, SIXTEENTH].map(step => [id, step] as const)))(
  '%s on marks of %s mm',
  (id, step) => {
    const s = style(id);
    const { nets, rounding } = rounded(s, { inside: s.example, thickness: 0.25 }, step);
    it('has every score of its recipe on a mark', () => {
      for (const net of nets) {
        const r = recipeFor(net, drawNet(net));
        if ('none' in r) throw new Error(r.none.why);
        const marks = [
          r.blank.width,
          r.blank.height,
          ...r.first.scores.map(m => m.at),
          ...r.second.scores.map(m => m.at),
        ];
        for (const mark of marks) {
          expect(Math.abs(mark / step - Math.round(mark / step)) * step).toBeLessThan(0.02);
        }
      }
    });
    it('obeys every law', () => expectSound(nets));
    it('leaves the space that was asked for, and not two marks more', () => {
      for (const side of ['length', 'width', 'height'] as (keyof Inside)[]) {
        expect(rounding.clear[side]).toBeGreaterThanOrEqual(s.example[side] - 0.02);
        expect(rounding.clear[side]).toBeLessThan(s.example[side] + 2 * step);
      }
    });
  },
);

it('a size on marks stays as it is when it is asked crease to crease', () => {
  const inside = { length: 152.4, width: 50.8, height: 25.4 };
  const { spec, rounding } = rounded(style('flip-lid'), { inside, thickness: 0 }, SIXTEENTH, 0.25);
  expect(spec).toEqual({ inside, thickness: 0 });
  expect(rounding.set).toEqual({});
  // A paper at each end wall and tab, half of one at each crease: 3 t of the length.
  expect(rounding.clear.length).toBeCloseTo(152.4 - 3 * 0.25, 6);
  expect(roundingWords(rounding, 'in')).toContain('6 x 2 x 1 in crease to crease');
});

it('a lid still goes over its base', () => {
  const s = style('lid-and-base');
  const { nets, rounding } = rounded(s, { inside: s.example, thickness: 0.25 }, 1);
  const [base, lid] = nets.map(
    n => n.panels.find(p => p.id === 'base')!.outline.segments[0]!.to[0],
  );
  // Two papers and the play of a lid on each side.
  expect(lid! - base!).toBeGreaterThanOrEqual(4 * 0.25);
  expect(rounding.set).toHaveProperty('ease', 1);
});

describe('is refused, as a fault of round,', () => {
  const refusal = (id: string, step: number, values: ParamValues = {}): ParamError => {
    const s = style(id);
    try {
      roundForHand(s, { inside: s.example, thickness: 0.25 }, fillParams(s.params, values), step);
    } catch (error) {
      return error as ParamError;
    }
    throw new Error('not refused');
  };
  it.each([
    ['pillow', 'is curled'],
    ['slice', 'not parallel to an edge'],
    ['tetra-pouch', 'is on none'],
  ])('for %s', (id, why) => {
    const error = refusal(id, 1);
    expect(error).toBeInstanceOf(ParamError);
    expect(error.param).toBe('round');
    expect(error.message).toContain(why);
  });
});
