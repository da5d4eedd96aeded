/** The register marks of a sheet of ours as they stand in print. */
import type { PrintedMark, RegisterMark } from '../model.js';
import { markInk } from '../sheet/index.js';
import type { ManifestSheet } from '../write/index.js';

export const printedMarks = ({ marks }: ManifestSheet): PrintedMark[] =>
  marks.map(({ name, at: [x = 0, y = 0], shape, sizeMm: size, strokeMm, quarters }) => {
    const mark: RegisterMark = {
      name,
      at: [x, y],
      style: { shape, size, stroke: strokeMm },
      quarters: quarters as RegisterMark['quarters'],
    };
    return { name, at: mark.at, ink: markInk(mark) };
  });
