/** The boxes that come with the program: a preset for every style, sound and fit for the mat. */
import { describe, expect, it } from 'vitest';
import { find } from '../../src/contracts.js';
import { netPiece } from '../../src/fold/outline.js';
import { bounds } from '../../src/geom/index.js';
import { formatFaults } from '../../src/job/fault.js';
import { readJob } from '../../src/job/read-job.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { expectSound } from '../support/nets.js';
import { presetText, realLibrary, realPresets } from './real-library.js';

const library = realLibrary();
const ids = realPresets.ids('box');
const designOf = (id: string) => {
  const read = readJob({ file: `${id}.yaml`, text: presetText('box', id) }, library);
  if ('faults' in read) throw new Error(formatFaults(read.faults));
  return read.design;
};

describe('box presets', () => {
  it('are there for every style', () => {
    const styles = ids.flatMap(id => designOf(id).items.map(item => item.box!.style));
    expect(new Set(styles)).toEqual(new Set(STYLES.map(s => s.id)));
  });
  it.each(ids)('%s is read without a fault, folds, and fits the mat', id => {
    const { name, title, items, cutter, stocks } = designOf(id);
    expect(name).toBe(id);
    expect(title.length).toBeLessThan(60);
    expect(items).toHaveLength(1);
    const [{ box, count }] = items as [(typeof items)[0]];
    const style = find(STYLES, box!.style)!;
    const nets = style.build(box!.spec, fillParams(style.params, box!.values));
    expectSound(nets, id);
    const reach = [cutter.width, cutter.height]
      .map(side => side - 2 * cutter.margin)
      .sort((a, b) => a - b);
    for (const net of nets) {
      const b = bounds(netPiece(net, stocks[box!.stock]!, count).outline);
      const sides = [b.maxX - b.minX, b.maxY - b.minY].sort((a, z) => a - z);
      expect(sides[0], net.id).toBeLessThanOrEqual(reach[0]!);
      expect(sides[1], net.id).toBeLessThanOrEqual(reach[1]!);
    }
  });
});
