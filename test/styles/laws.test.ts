/** The laws that every style obeys at every size and every parameter. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import { drawNet, netPiece } from '../../src/fold/outline.js';
import { isFinitePath } from '../../src/geom/index.js';
import type { BoxSpec, Net, ParamValue, Stroke } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { CARD } from '../support/card.js';
import { expectSound } from '../support/nets.js';
import { samples } from '../support/param-samples.js';

const SEED = 20260;
/** Nets, or nothing where the style refuses. What is refused names a parameter and what to do. */
function built(style: BoxStyle, spec: BoxSpec, given: Record<string, ParamValue>): readonly Net[] {
  try {
    return style.build(spec, fillParams(style.params, given));
  } catch (e) {
    if (!(e instanceof ParamError)) throw e;
    const known = ['length', 'width', 'height', 'thickness', ...Object.keys(style.params)];
    expect(known).toContain(e.param);
    expect(e.message).not.toMatch(/NaN|Infinity|undefined/);
    expect(e.advice.length).toBeGreaterThan(5);
    return [];
  }
}

const say = (style: BoxStyle, spec: BoxSpec, given: object) =>
  `${style.id} ${JSON.stringify(spec)} ${JSON.stringify(given)}`;

/** Sides from 8 to 250 mm, each ratio as likely as any; paper from none to 0.6 mm. */
const anySpec: fc.Arbitrary<BoxSpec> = fc
  .record({
    sides: fc.tuple(...[0, 1, 2].map(() => fc.integer({ min: 0, max: 1000 }))),
    thickness: fc.constantFrom(0, 0.1, 0.2, 0.3, 0.45, 0.6),
  })
  .map(({ sides, thickness }) => {
    const [length, width, height] = sides.map(
      n => Math.round(80 * 8 * (250 / 8) ** (n! / 1000)) / 80,
    ) as [number, number, number];
    return { inside: { length, width, height }, thickness };
  });

/** A round box has one measure for length and width. */
const suited = ({ plan }: BoxStyle, { inside, thickness }: BoxSpec): BoxSpec =>
  plan === 'round'
    ? { inside: { ...inside, width: inside.length }, thickness }
    : { inside, thickness };

/** How often a box of sides drawn at random is possible, where that is not nearly always. */
const OFTEN: Readonly<Record<string, number>> = {
  // It cannot be as high as it is wide: sides drawn at random ask for that as often as not.
  pillow: 0.3,
  // Thick paper has no room for petals over a narrow box.
  'petal-close': 0.85,
  // Its side walls roll over inward, so it is about as long as high at least.
  'tuck-tray': 0.4,
  // Thick paper does not climb three papers within a third of a narrow bottom.
  'snap-bottom': 0.8,
  // A tip too sharp or too blunt cannot be glued.
  slice: 0.6,
  'heart-box': 0.15,
  // Sides drawn at random ask for a plate or a straw as often as for a cone.
  cone: 0.3,
  // Too low for its seams, it would be all but flat, and its net run into itself.
  'tetra-pouch': 0.6,
};

describe.each(STYLES.map(s => [s.id, s] as const))('%s', (_, style) => {
  const specs: BoxSpec[] = [0, 0.3, 0.6].map(thickness => ({ inside: style.example, thickness }));

  it('is sound at its example with every parameter at its least, default and most', () => {
    let sound = 0;
    const all = samples(style.params, 24, SEED);
    for (const spec of specs) {
      for (const given of all) {
        const nets = built(style, spec, given);
        expectSound(nets, say(style, spec, given));
        if (nets.length > 0) sound++;
      }
      expect(built(style, spec, {}).length).toBeGreaterThan(0);
    }
    // A check that everything was refused by would prove nothing.
    expect(sound).toBeGreaterThan(specs.length * 3);
  });

  it('is sound at random sizes, and mostly possible', () => {
    let tried = 0;
    let sound = 0;
    fc.assert(
      fc.property(anySpec, any => {
        const spec = suited(style, any);
        const nets = built(style, spec, {});
        tried++;
        if (nets.length > 0) sound++;
        expectSound(nets, say(style, spec, {}));
      }),
      { seed: SEED, numRuns: 60 },
    );
    expect(sound / tried).toBeGreaterThan(OFTEN[style.id] ?? 0.9);
  });

  it('is sound at random sizes and random parameters', () => {
    const mixtures = samples(style.params, 40, SEED + 1);
    fc.assert(
      fc.property(anySpec, fc.constantFrom(...mixtures), (any, given) => {
        const spec = suited(style, any);
        expectSound(built(style, spec, given), say(style, spec, given));
      }),
      { seed: SEED + 2, numRuns: 80 },
    );
  });

  it('becomes pieces with finite lines, and each panel is within its piece once', () => {
    for (const net of built(style, specs[1]!, {})) {
      const piece = netPiece(net, CARD, 3);
      expect(piece.count).toBe(3);
      expect(piece.stock).toBe('card');
      const paths = [piece.outline, ...piece.holes, ...piece.strokes.map(s => s.path)];
      expect(paths.every(isFinitePath)).toBe(true);
      const drawing = drawNet(net);
      const scored = (list: readonly Stroke[]) => list.filter(s => s.operation === 'score');
      expect(scored(piece.strokes)).toHaveLength(
        drawing.scores.length + scored(drawing.strokes).length,
      );
    }
  });

  it.each([
    ['length', 0],
    ['width', -5],
    ['height', Number.NaN],
    ['length', Number.POSITIVE_INFINITY],
    ['width', 1e9],
    ['thickness', -0.1],
    ['thickness', Number.NaN],
    ['thickness', 50],
  ] as const)('refuses a %s of %s', (name, value) => {
    const inside = name === 'thickness' ? style.example : { ...style.example, [name]: value };
    const spec = { inside, thickness: name === 'thickness' ? value : 0.3 };
    const build = () => style.build(spec, fillParams(style.params, {}));
    expect(build).toThrow(ParamError);
    expect(build).toThrow(name);
  });

  it('says what it is in words a papercrafter understands', () => {
    expect(style.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(style.summary.length).toBeLessThan(80);
    expect(style.tags.length).toBeGreaterThan(0);
    for (const spec of Object.values(style.params)) expect(spec.help.length).toBeGreaterThan(10);
  });
});

it('every style of the folder is listed once', () => {
  const folder = new URL('../../src/styles/', import.meta.url);
  const defined = readdirSync(folder)
    .filter(file => file.endsWith('.ts'))
    .map(file => readFileSync(new URL(file, folder), 'utf8'))
    .flatMap(text => [...text.matchAll(/= defineStyle\(\{\s*id: '([a-z-]+)'/g)].map(m => m[1]));
  expect(STYLES.map(s => s.id).sort()).toEqual(defined.sort());
});
