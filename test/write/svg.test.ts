import { Resvg } from '@resvg/resvg-js';
import { DOMParser, type Element, onWarningStopParsing } from '@xmldom/xmldom';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circle, line, openPath, pathLength, rectangle } from '../../src/geom/index.js';
import type { Drawing } from '../../src/model.js';
import { svg } from '../../src/write/svg.js';
import { anyDrawing, CONVENTION, drawing, SPECIMEN } from '../support/drawings.js';

const write = (d: Drawing) => svg.write(d, CONVENTION);
const parse = (text: string) =>
  new DOMParser({ onError: onWarningStopParsing }).parseFromString(text, 'image/svg+xml');
const elements = (text: string): Element[] => [...parse(text).getElementsByTagName('*')];

describe('svg', () => {
  it('has the size of the sheet in mm, one user unit a millimetre', () => {
    const root = parse(write(drawing({ cut: [] }, 215.9, 279.4))).documentElement!;
    expect(root.getAttribute('width')).toBe('215.9mm');
    expect(root.getAttribute('height')).toBe('279.4mm');
    expect(root.getAttribute('viewBox')).toBe('0 0 215.9 279.4');
  });

  it('has one group an operation, in working order, only those present', () => {
    const ids = (d: Drawing) =>
      elements(write(d)).flatMap(e => (e.tagName === 'g' ? [e.getAttribute('id')] : []));
    expect(ids(SPECIMEN)).toEqual(['draw', 'score', 'perforate', 'cut', 'register']);
    const mixed: Drawing = {
      ...SPECIMEN,
      layers: [
        { operation: 'cut', paths: [circle([5, 5], 2)] },
        { operation: 'score', paths: [] },
        { operation: 'draw', paths: [circle([9, 9], 2)] },
        { operation: 'cut', paths: [circle([9, 5], 2)] },
      ],
    };
    expect(ids(mixed)).toEqual(['draw', 'cut']);
  });

  it('holds only svg, g and path, with attributes that need no style sheet', () => {
    fc.assert(
      fc.property(anyDrawing(), d => {
        for (const e of elements(write(d))) {
          const names = [...e.attributes].map(a => a.name).sort();
          if (e.tagName === 'path') expect(names).toEqual(['d', 'fill', 'stroke', 'stroke-width']);
          else if (e.tagName === 'g') expect(names).toEqual(['id']);
          else {
            expect(e.tagName).toBe('svg');
            expect(names).toEqual(['height', 'viewBox', 'width', 'xmlns']);
          }
        }
      }),
      { seed: 21, numRuns: 30 },
    );
  });

  it('writes path data of absolute M L C Z only, to three decimals, no point twice', () => {
    fc.assert(
      fc.property(anyDrawing(), d => {
        for (const e of elements(write(d)).filter(x => x.tagName === 'path')) {
          const data = e.getAttribute('d')!;
          expect(data).toMatch(/^M[-\d. ]+([LC][-\d. ]+)*Z?$/);
          expect(data).not.toMatch(/-0(?![.\d])|\.\d{4}|e/);
          const ends = data.match(/[-\d.]+ [-\d.]+(?=[A-Z]|$)/g)!;
          for (let i = 1; i < ends.length; i++) expect(ends[i]).not.toBe(ends[i - 1]);
        }
      }),
      { seed: 22, numRuns: 30 },
    );
  });

  it('flips y about the sheet', () => {
    expect(write(drawing({ cut: [openPath([10, 20], [line([30, 40.5])])] }, 100, 50))).toContain(
      'd="M10 30L30 9.5"',
    );
  });

  it('drops points that round to the one before, and paths that round to a point', () => {
    const text = write(
      drawing(
        {
          cut: [
            openPath([0, 0], [line([0.0003, 0]), line([5, 0]), line([5.0002, 0.0001])]),
            openPath([1, 1], [line([1.0001, 1])]),
            rectangle(1, 1, 2, 0.0001),
          ],
          score: [openPath([7, 7], [line([7, 7])])],
        },
        10,
        10,
      ),
    );
    expect([...text.matchAll(/ d="([^"]*)"/g)].map(m => m[1])).toEqual(['M0 10L5 10', 'M1 9L3 9Z']);
    expect(text).not.toContain('score');
  });

  it('gives the same bytes for the same drawing', () => {
    expect(write(structuredClone(SPECIMEN))).toBe(write(SPECIMEN));
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('throws on %f anywhere', bad => {
    const paths = [
      openPath([bad, 0], [line([1, 1])]),
      openPath([0, 0], [line([1, bad])]),
      openPath([0, 0], [{ kind: 'arc', to: [1, 1], bulge: bad }]),
      openPath([0, 0], [{ kind: 'cubic', c1: [bad, 0], c2: [1, 0], to: [1, 1] }]),
    ];
    for (const p of paths) expect(() => write(drawing({ cut: [p] }))).toThrow();
    expect(() => write(drawing({}, bad, 10))).toThrow();
  });

  it('lets no colour of a preset reach the file unless it is a colour', () => {
    const bad = { ...CONVENTION.operations.cut, colour: '#000"/><script/>' };
    expect(() =>
      svg.write(SPECIMEN, { ...CONVENTION, operations: { ...CONVENTION.operations, cut: bad } }),
    ).toThrow(/#rrggbb/);
  });

  // resvg is the outside reader: what it paints must be as long as what we drew.
  it.each([
    ['rectangle', [rectangle(10, 10, 60, 40)]],
    ['circle', [circle([50, 40], 25)]],
    ['open arc', [openPath([20, 20], [{ kind: 'arc', to: [70, 30], bulge: 0.7 } as const])]],
    [
      'cubic',
      [openPath([10, 10], [{ kind: 'cubic', c1: [10, 60], c2: [60, 60], to: [60, 10] } as const])],
    ],
  ])('is rendered by resvg with the ink that was drawn: %s', (_name, paths) => {
    const ink = inkOf(write(drawing({ cut: paths }, 100, 80)), 100);
    const drawn = paths.reduce((sum, p) => sum + pathLength(p), 0) * 0.25;
    expect(Math.abs(ink / drawn - 1)).toBeLessThan(0.005);
  });

  it('the ink test can fail: one side of the rectangle left out is noticed', () => {
    const open = openPath([10, 10], [line([70, 10]), line([70, 50]), line([10, 50])]);
    const ink = inkOf(write(drawing({ cut: [open] }, 100, 80)), 100);
    expect(Math.abs(ink / (pathLength(rectangle(10, 10, 60, 40)) * 0.25) - 1)).toBeGreaterThan(0.1);
  });
});

/** Painted area in mm², by the opacity of every pixel. */
function inkOf(text: string, widthMm: number): number {
  const image = new Resvg(text, { fitTo: { mode: 'width', value: widthMm * 20 } }).render();
  // The getter copies the whole image: ask once.
  const { pixels } = image;
  let sum = 0;
  for (let i = 3; i < pixels.length; i += 4) sum += pixels[i]!;
  return sum / 255 / 400;
}
