/** The register marks of a sheet of ours: as they were placed, and as they stand in print. */
import { bounds } from '../geom/index.js';
import type { PrintedMark, RegisterMark } from '../model.js';
import { markInk, wedgeBeside, wedgeInk } from '../sheet/index.js';
import type { ManifestSheet } from '../write/index.js';

export const markOf = (m: ManifestSheet['marks'][number]): RegisterMark => ({
  name: m.name,
  at: [m.at[0] ?? 0, m.at[1] ?? 0],
  style: { shape: m.shape, size: m.sizeMm, stroke: m.strokeMm },
  quarters: m.quarters as RegisterMark['quarters'],
});

export const printedMarks = ({ marks }: ManifestSheet): PrintedMark[] =>
  marks.map(m => {
    const mark = markOf(m);
    return { name: mark.name, at: mark.at, ink: markInk(mark) };
  });

/** The wedge beside the fifth mark, as if it were one too. */
export function printedWedge({ marks }: ManifestSheet): PrintedMark | undefined {
  const fifth = marks.find(m => m.name === 'fifth');
  if (!fifth) return undefined;
  const wedge = wedgeBeside(markOf(fifth));
  const { minX, minY, maxX, maxY } = bounds(wedge);
  return { name: 'wedge', at: [(minX + maxX) / 2, (minY + maxY) / 2], ink: wedgeInk(wedge) };
}
