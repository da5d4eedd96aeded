/** Where glue goes: on the draw layer, or in the guide only; and what files say of it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gluedFaces } from '../../../src/fold/index.js';
import { distanceToPath, flatten, signedArea, windingOf } from '../../../src/geom/index.js';
import type { Net } from '../../../src/model.js';
import { fillParams } from '../../../src/params.js';
import { drum } from '../../../src/styles/drum.js';
import { STYLES } from '../../../src/styles/index.js';
import { foldwright, inFolder } from '../../support/command.js';
import { flip, make, spec, tried } from './taken.js';

const drawnOf = (net: Net) =>
  net.panels.flatMap(p =>
    p.strokes.filter(s => s.operation === 'draw').map(s => [p.id, s.path] as const),
  );
const facesOf = (nets: readonly Net[]) => [...gluedFaces(nets).values()].flat();

describe('glue areas', () => {
  const all = make(flip(), spec('glue-areas', '')).nets;
  const inner = facesOf(all).filter(g => g.face === 'inside');
  it('are drawn once on every inside that takes glue, and on no outside', () => {
    expect(inner).toHaveLength(4);
    expect(inner.every(g => g.drawn)).toBe(true);
    expect(facesOf(all).filter(g => g.face === 'outside' && g.drawn)).toEqual([]);
    expect(
      drawnOf(all[0]!)
        .map(([id]) => id)
        .sort(),
    ).toEqual(inner.map(g => g.panel).sort());
  });
  it('are drawn a millimetre inside the area, where the glued paper hides them', () => {
    const [net] = all;
    for (const [id, path] of drawnOf(net!)) {
      const area = inner
        .map(g => [g.panel, g.area] as const)
        .find(([panel, outline]) => panel === id && windingOf(outline)(path.start) !== 0)![1];
      for (const p of flatten(path, 0.01)) expect(distanceToPath(p, area)).toBeCloseTo(1, 6);
      expect(signedArea(path)).toBeGreaterThan(0);
    }
  });
  it('of one panel leave the others to the guide', () => {
    const [net] = make(flip(), spec('glue-areas', 'left')).nets;
    const faces = facesOf([net!]);
    expect(faces.filter(g => g.drawn).map(g => g.panel)).toEqual(['left', 'left']);
    expect(drawnOf(net!)).toHaveLength(2);
  });
  it('are drawn once where they are asked for twice', () => {
    const [net] = make(flip(), spec('glue-areas', 'left'), spec('glue-areas', '')).nets;
    expect(drawnOf(net!)).toHaveLength(4);
    expect(net!.glueDrawn).toHaveLength(4);
  });
  it('for the guide are drawn nowhere', () => {
    const [net] = make(flip(), spec('glue-areas', '', { show: 'guide' })).nets;
    expect(drawnOf(net!)).toEqual([]);
    expect(facesOf([net!]).map(g => g.drawn)).toEqual(Array(8).fill(false));
  });
  it('are not taken back to the guide once drawn', () => {
    expect(tried(all, spec('glue-areas', 'left', { show: 'guide' })).refused).toMatchObject({
      param: 'show',
      allowed: expect.stringContaining('draws that of left'),
    });
  });
  it('of a box whose parts are glued to each other are drawn too', () => {
    const t = 0.3;
    const nets = drum.build({ inside: drum.example, thickness: t }, fillParams(drum.params, {}));
    const made = make(nets, spec('glue-areas', '')).nets;
    const seats = facesOf(made).filter(g => g.drawn);
    const before = facesOf(nets);
    expect(seats).toHaveLength(before.filter(g => g.face === 'inside').length);
    expect(made.flatMap(drawnOf)).toHaveLength(seats.length);
  });
});

describe.each(STYLES.map(s => [s.id, s] as const))('what is glued of %s', (_, style) => {
  const nets = style.build({ inside: style.example, thickness: 0.3 }, fillParams(style.params, {}));
  it('is as large on both of its faces', () => {
    const faces = gluedFaces(nets);
    for (const net of nets) {
      for (const { a, b } of net.joins.filter(j => j.kind === 'glue')) {
        const sizes = [a, b].map(({ panel }, i) => {
          const onto = (i === 0 ? b : a).panel;
          const own = faces.get(net.id)!.filter(g => g.panel === panel && g.onto === onto);
          return own.reduce((sum, g) => sum + Math.abs(signedArea(g.area)), 0);
        });
        // Inside a curl paper is a little shorter than outside.
        expect(sizes[1]! / sizes[0]!, `${a.panel} on ${b.panel}`).toBeCloseTo(1, 1);
        expect(sizes[0]).toBeGreaterThan(0);
      }
    }
  });
});

describe('files', () => {
  const run = (...more: string[]) =>
    inFolder(async folder => {
      const ask = ['box', 'flip-lid', '--inside', '6x2x1in', '--out', 'out', '--net', 'net.json'];
      const { code, err } = await foldwright([...ask, ...more], folder);
      expect(code, err).toBe(0);
      const read = (...path: string[]) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));
      const glue = read('out', 'box', 'manifest.json').nets[0].glue as { shown: string }[];
      return { glue, told: read('net.json').nets[0].glue as { shown: string }[] };
    });
  it.each([
    [[], 0],
    [['--feature', 'glue-areas'], 4],
    [['--feature', 'glue-areas show=guide'], 0],
    [['--feature', 'glue-areas on=right'], 2],
  ] as const)('with %j say which are drawn', async (more, drawn) => {
    const { glue, told } = await run(...more);
    expect(glue).toHaveLength(8);
    expect(glue.filter(g => g.shown === 'draw')).toHaveLength(drawn);
    expect(told.map(g => g.shown)).toEqual(glue.map(g => g.shown));
  });
});
