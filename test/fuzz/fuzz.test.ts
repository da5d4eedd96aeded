/** The fuzz run's own parts: cases that can be drawn again, and a judge that knows faults. */
import { describe, expect, it } from 'vitest';
import { type BoxStyle, defineStyle } from '../../src/contracts.js';
import { transform, translation } from '../../src/geom/index.js';
import { ParamError } from '../../src/params.js';
import { flipLid } from '../../src/styles/flip-lid.js';
import { STYLES } from '../../src/styles/index.js';
import { drawCase } from './draw.js';
import { judge, judgeMended, smaller } from './judge.js';

const example = { spec: { inside: flipLid.example, thickness: 0.3 }, given: {} };
const params = {
  tab: { kind: 'length', default: 10, least: 1, most: 20, help: 'Depth of the tabs.' },
  odd: { kind: 'flag', default: false, help: 'Something else.' },
} as const;
const styleThat = (build: BoxStyle['build']): BoxStyle =>
  defineStyle({ ...flipLid, params, build: build as never });

describe('a case', () => {
  it('is the same from the same seed, and another from another', () => {
    for (const style of STYLES) {
      expect(drawCase(style, `5 ${style.id} 9`)).toEqual(drawCase(style, `5 ${style.id} 9`));
    }
    expect(drawCase(flipLid, 'a')).not.toEqual(drawCase(flipLid, 'b'));
  });
  it('takes every parameter and side through its range, nonsense too', () => {
    const drawn = Array.from({ length: 2000 }, (_, i) => drawCase(flipLid, `range ${i}`));
    for (const [name, spec] of Object.entries(flipLid.params)) {
      const values = drawn.flatMap(c => (name in c.given ? [c.given[name]] : []));
      expect(values.length).toBeGreaterThan(500);
      expect(values).toContain(spec.least);
      expect(values).toContain(spec.most);
    }
    const lengths = drawn.map(c => c.spec.inside.length);
    expect(Math.min(...lengths.filter(v => v > 0.1))).toBeLessThan(6);
    expect(Math.max(...lengths.filter(v => v < 1e6))).toBeGreaterThan(1500);
    expect(lengths.some(Number.isNaN)).toBe(true);
  });
});

describe('the judge', () => {
  it('passes what is sound, with and without a way', () => {
    expect(judge(flipLid, example, false)).toEqual({ kind: 'sound' });
    expect(judge(flipLid, example, true)).toEqual({ kind: 'sound' });
  });
  it('passes a refusal with its bound', () => {
    const tall = { ...example, given: { lid: 500 } };
    expect(judge(flipLid, tall, false)).toEqual({
      kind: 'refused',
      param: 'lid',
      bound: 50.8,
    });
  });
  const faults: readonly [string, BoxStyle['build'], RegExp][] = [
    ['a crash', () => JSON.parse('{'), /SyntaxError/],
    ['no net', () => [], /no net/],
    [
      'NaN in a net',
      s => flipLid.build({ ...s, inside: s.inside }, { ...flipLidValues, corner: Number.NaN }),
      /NaN|not a number|number/,
    ],
    ['a refusal of nothing', () => refuse('x', 'at most 5 mm'), /no parameter/],
    ['a refusal without a bound', () => refuse('tab', 'too much'), /without a bound/],
    ['a refusal with NaN', () => refuse('tab', 'at most NaN mm'), /no number/],
    ['a refusal below nothing', () => refuse('tab', 'at most -2 mm'), /below nothing/],
    ['a broken law', s => shifted(s), /box: /],
  ];
  it.each(faults)('knows %s', (_, build, message) => {
    const verdict = judge(styleThat(build), example, false);
    expect(verdict.kind).toBe('fault');
    expect((verdict as { what: string }).what).toMatch(message);
  });
});

const flipLidValues = {
  lid: 'auto',
  tab: 'auto',
  mitreDeg: 15,
  dust: 'auto',
  corner: 'auto',
  dots: 1,
  dot: 'auto',
} as const;

function refuse(param: string, allowed: string): never {
  throw new ParamError(param, 7, allowed, 'make it smaller');
}

/** One panel is drawn 1 mm beside its place. */
function shifted(spec: Parameters<BoxStyle['build']>[0]) {
  return flipLid.build(spec, flipLidValues).map(net => ({
    ...net,
    panels: net.panels.map(p =>
      p.id === 'lid' ? { ...p, outline: transform(p.outline, translation(1, 0)) } : p,
    ),
  }));
}

describe('a bound that is told', () => {
  it('is kept, and what comes of it is judged', () => {
    const tall = { ...example, given: { lid: 500, tab: 60 } };
    const { verdict, last, at } = judgeMended(flipLid, tall, false);
    expect(verdict.kind).toBe('refused');
    expect(last.kind).toBe('sound');
    expect(at.given.lid).toBe(50.79);
    expect(at.given.tab as number).toBeLessThan(60);
  });
  it('of a range is the nearer end', () => {
    const flat = {
      spec: { inside: { ...flipLid.example, height: 1e9 }, thickness: 0.3 },
      given: {},
    };
    expect(judgeMended(flipLid, flat, false).at.spec.inside.height).toBe(2000);
  });
  it('that leads to a broken net is a fault', () => {
    const style = styleThat((spec, { tab }) => {
      if ((tab as number) > 12) throw new ParamError('tab', 7, 'at most 12 mm', 'make it smaller');
      return tab === 12 ? shifted(spec) : flipLid.build(spec, flipLidValues);
    });
    expect(judgeMended(style, { ...example, given: { tab: 15 } }, false).last.kind).toBe('fault');
  });
});

it('a fault is told with as little as it takes', () => {
  const style = styleThat((spec, values) => {
    if (values.tab === 7) throw new TypeError('seven');
    return flipLid.build(spec, flipLidValues);
  });
  const found = {
    spec: { inside: { length: 100, width: 70, height: 30 }, thickness: 0.6 },
    given: { tab: 7, odd: true },
  };
  expect(smaller(style, found, false)).toEqual({
    spec: { inside: flipLid.example, thickness: 0.3 },
    given: { tab: 7 },
  });
});
