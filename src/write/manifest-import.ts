/** What the software that takes a run's cut files asks of them, as the manifest tells it: in the words of
 *  a job's `import`, so that files written later beside them are written alike. */
import { DXF_KINDS, IMPORT_FILES, IMPORT_ORIGINS, IMPORT_Y, type Importing } from '../model.js';
import { number, object, oneOf } from './checked-json.js';
import { rounded } from './number.js';

const UNITS = ['mm', '72', '90', '96'] as const;

export interface ManifestImport {
  /** What SVG numbers count: millimetres, or so many to the inch. */
  readonly svgUnits: (typeof UNITS)[number];
  readonly origin: Importing['origin'];
  readonly y: Importing['y'];
  readonly dxf: Importing['dxf'];
  readonly files: Importing['files'];
  /** 0 is none. */
  readonly scaleSquareMm: number;
}

export const importEntry = ({ svgUnits, scaleSquare, ...same }: Importing): ManifestImport => ({
  svgUnits: svgUnits === undefined ? 'mm' : `${svgUnits}`,
  origin: same.origin,
  y: same.y,
  dxf: same.dxf,
  files: same.files,
  scaleSquareMm: rounded(scaleSquare, 3),
});

export const CHECK_IMPORT = object({
  svgUnits: oneOf(...UNITS),
  origin: oneOf(...IMPORT_ORIGINS),
  y: oneOf(...IMPORT_Y),
  dxf: oneOf(...DXF_KINDS),
  files: oneOf(...IMPORT_FILES),
  scaleSquareMm: number(0),
});

/** What a later run asks of a writer. */
export function importingOf({ svgUnits, scaleSquareMm, ...same }: ManifestImport): Importing {
  const asked = { ...same, scaleSquare: scaleSquareMm };
  return svgUnits === 'mm' ? asked : { ...asked, svgUnits: Number(svgUnits) as 72 | 90 | 96 };
}
