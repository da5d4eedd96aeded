/** The demo job, from which people learn how a job is written. */
import { describe, expect, it } from 'vitest';
import { find } from '../../src/contracts.js';
import { netPiece } from '../../src/fold/outline.js';
import { bounds } from '../../src/geom/index.js';
import { formatFaults } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import type { Design } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { presetText, realLibrary } from './real-library.js';

function demo(): Design {
  const text = presetText('job', 'orchard-fair');
  const read = readJob({ file: 'presets/jobs/orchard-fair.yaml', text }, realLibrary());
  if ('faults' in read) throw new Error(formatFaults(read.faults));
  return read.design;
}

describe('the orchard fair', () => {
  const design = demo();
  const boxes = design.items.filter(item => item.box);

  it('has ten box sizes over the four styles, six or more of them decorated', () => {
    const sizes = new Set(boxes.map(b => JSON.stringify(b.box!.spec.inside)));
    expect(sizes.size).toBe(10);
    expect(new Set(boxes.map(b => b.box!.style))).toEqual(
      new Set(['flip-lid', 'lid-and-base', 'straight-tuck', 'pillow']),
    );
    expect(boxes.filter(b => b.decorations.length > 0).length).toBeGreaterThanOrEqual(6);
    expect(new Set(boxes.map(b => b.box!.stock))).toEqual(new Set(['kraft', 'cream']));
  });

  it('shows every way to decorate', () => {
    const all = design.items.flatMap(item => item.decorations);
    const motifs = all.map(d => (d.what.kind === 'motif' ? d.what.motif : 'overlay'));
    expect([...new Set(motifs)].sort()).toEqual(
      [
        ...['overlay', 'heart', 'scalloped-disc', 'label', 'apple', 'pear', 'blossom', 'oak-leaf'],
        ...['acorn', 'star', 'banner', 'bow', 'tag', 'pennants', 'bee'],
      ].sort(),
    );
    expect(all.some(d => d.shadow) && all.some(d => d.cutOuts) && all.some(d => d.lift)).toBe(true);
    expect(new Set(all.flatMap(d => d.art?.pattern ?? []))).toEqual(
      new Set(['plaid', 'floral', 'fish-scale', 'woodgrain', 'gingham', 'scatter']),
    );
    expect(all.some(d => d.face === 'inside')).toBe(true);
    expect(all.some(d => d.backings.length === 2)).toBe(true);
  });

  it('shows how features are asked for: a closure, a hole to hang it by, a window with its film', () => {
    const asked = boxes.flatMap(b => b.box!.features ?? []);
    expect(asked.map(f => f.feature)).toEqual(['closure', 'hanging-hole', 'window']);
    expect(asked.map(f => f.film)).toEqual([undefined, undefined, 'film']);
  });

  it('fits the mat: every blank lies within the reach of the tools, as it is or turned', () => {
    const { cutter } = design;
    const [w, h] = [cutter.width, cutter.height].map(side => side - 2 * cutter.margin);
    for (const { name, count, box } of boxes) {
      const style = find(STYLES, box!.style)!;
      const nets = style.build(box!.spec, fillParams(style.params, box!.values));
      for (const net of nets) {
        const b = bounds(netPiece(net, design.stocks[box!.stock]!, count).outline);
        const sides = [b.maxX - b.minX, b.maxY - b.minY].sort((a, z) => a - z);
        expect(sides[0], `${name} ${net.id}`).toBeLessThanOrEqual(Math.min(w!, h!));
        expect(sides[1], `${name} ${net.id}`).toBeLessThanOrEqual(Math.max(w!, h!));
      }
    }
  });

  it('is the caramel box of 6 × 2 × 1 in with tabs of 1/2 in (common practice, no source)', () => {
    const caramels = boxes.find(b => b.name === 'cider-caramels')!.box!;
    expect(caramels.spec.inside).toEqual({ length: 152.4, width: 50.8, height: 25.4 });
    expect(caramels.values.tab).toBe(12.7);
    // 80 lb cover is 216.33 g/m² (check-values 1.2) at the preset's bulk of 1.45 cm³/g.
    expect(caramels.spec.thickness).toBeCloseTo(0.21633 * 1.45, 4);
  });

  it('names its table rows by their sizes', () => {
    const fudge = design.items.filter(item => item.name.startsWith('pear-fudge'));
    expect(fudge.map(f => [f.name, f.title, f.count])).toEqual([
      ['pear-fudge-2x2', 'Pear fudge, four squares', 12],
      ['pear-fudge-3x2', 'Pear fudge, six squares', 8],
      ['pear-fudge-4x3', 'Pear fudge, a dozen squares', 4],
    ]);
  });
});
