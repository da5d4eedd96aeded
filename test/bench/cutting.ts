/** A sheet of 400 contours and 20,000 segments: what the blade's tip does with it, and its files. The built
 *  program is measured: the loader of tests makes every import a call. */
import { presetStore } from '../../src/cli/preset-files.js';
import { openPresets } from '../../src/job/presets.js';
import { type Drawing, DXF_KINDS, type Path, PLAIN_IMPORT } from '../../src/model.js';
import { UNCOMPENSATED_MM } from '../../src/units/tolerances.js';
import { BUSY_SHEET_MM, busySheet } from './busy-sheet.js';
import { type Row, warmed } from './measure.js';

const BLADE = { offset: 0.25, overcut: 0.5 };
const AIM_BLADE_MS = 400;
const AIM_WRITE_MS = 200;
/** Of the DXF to the SVG. */
const AIM_SIZE = 1.5;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function cutting(): Promise<Row[]> {
  const { compensatePaths } =
    await built<typeof import('../../src/tool/compensate.js')>('tool/compensate.js');
  const { tipError } =
    await built<typeof import('../../src/tool/tip-error.js')>('tool/tip-error.js');
  const drawn = busySheet().map(s => s.path);
  const { driven } = compensatePaths(drawn, BLADE);
  const ms = async (what: string, aim: number, run: () => unknown): Promise<Row> => ({
    what,
    value: await warmed(run, 3, 7),
    unit: 'ms',
    aim,
  });
  const rows = [
    // As every sheet of a job: with the file's compensation, and what it would be with nobody's.
    await ms('busy sheet: compensation + simulation', AIM_BLADE_MS, () => {
      const { driven } = compensatePaths(drawn, BLADE);
      tipError(drawn, driven, BLADE.offset);
      tipError(drawn, drawn, BLADE.offset, undefined, UNCOMPENSATED_MM);
    }),
  ];
  for (const [what, paths] of [
    ['as drawn', drawn],
    ['compensated', driven],
  ] as const) {
    rows.push(...(await written(what, paths)));
  }
  return rows;
}

/** The files of the sheet: time for both together, and how large they are. */
async function written(what: string, paths: readonly Path[]): Promise<Row[]> {
  const { svg } = await built<typeof import('../../src/write/svg.js')>('write/svg.js');
  const { dxf } = await built<typeof import('../../src/write/dxf.js')>('write/dxf.js');
  const presetsDir = new URL('../../presets', import.meta.url).pathname;
  const found = openPresets(presetStore({ presetsDir })).get('convention', 'okabe-ito');
  if (!('value' in found)) throw new Error('the convention cannot be read');
  const convention = found.value;
  const drawing: Drawing = {
    name: 'busy sheet',
    width: BUSY_SHEET_MM,
    height: BUSY_SHEET_MM,
    layers: [{ operation: 'cut', paths }],
  };
  const took = await warmed(
    () => {
      svg.write(drawing, convention);
      dxf.write(drawing, convention);
    },
    3,
    7,
  );
  const plain = svg.write(drawing, convention).length / 1000;
  const name = `busy sheet, ${what}`;
  const sizes = DXF_KINDS.map((kind): Row => {
    const size = dxf.write(drawing, convention, { ...PLAIN_IMPORT, dxf: kind }).length / 1000;
    const both = `${size.toFixed(0)} kB to the SVG's ${plain.toFixed(0)} kB`;
    return { what: `${name}: DXF ${kind}, ${both}`, value: size / plain, unit: '×', aim: AIM_SIZE };
  });
  return [
    { what: `${name}: SVG + DXF written`, value: took, unit: 'ms', aim: AIM_WRITE_MS },
    ...sizes,
  ];
}
