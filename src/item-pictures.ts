/** Pictures of a planned item: folded and dressed, and its nets in the flat. */

import type { BoxNets } from './box-nets.js';
import type { MotifTools } from './contracts.js';
import { drawNet, litParts } from './fold/index.js';
import { faceMarks, filmsOf } from './item-finish.js';
import { inPlaces } from './item-guide.js';
import type { Decal, Design, Item, Net, Sheet } from './model.js';
import { sheetArts, sheetStrokes } from './sheet/index.js';
import { planSheet } from './tool/index.js';
import { drawingPicture, flatPicture, foldedPicture, loosePicture } from './write/index.js';

/** From the left front, above. */
const VIEW = { azimuth: -1.08, elevation: 0.46 };

const LEGEND_FACE = 'nunito-bold';

export interface PlannedPictures {
  readonly item: Item;
  readonly nets: readonly Net[];
  readonly decals: readonly Decal[];
  readonly loose: readonly Decal[];
  readonly box: Pick<BoxNets, 'whole' | 'parts' | 'pieces'>;
}

/** As SVG: the closed box in its papers, or the decorations of an item that has none. */
export async function itemPicture(
  plan: PlannedPictures,
  design: Design,
  widthPx: number,
): Promise<string> {
  const { item } = plan;
  if (!item.box) return loosePicture(plan.loose, widthPx);
  const { colour } = design.stocks[item.box.stock]!;
  const { nets, decals } = wholeBox(plan);
  const paper = { outside: colour, inside: colour };
  const films = filmsOf(plan.box);
  const { parts, table } = litParts(
    inPlaces(nets).map(standing => ({ ...standing, films })),
    VIEW,
  );
  const marks = faceMarks(nets);
  return foldedPicture({ parts, table, paper: () => paper, decals, marks }, widthPx);
}

/** As SVG: what is cut of the box in the flat, its inside up; `undefined` for an item without a box. */
export function netPicture({ item, nets }: PlannedPictures, design: Design): string | undefined {
  if (!item.box) return undefined;
  const { colour } = design.stocks[item.box.stock]!;
  return flatPicture(nets.map(drawNet), colour, design.convention);
}

/** As SVG: a sheet as it lies on the cutter, with its legend. */
export function sheetPicture(sheet: Sheet, design: Design, tools: MotifTools): Promise<string> {
  const { passes } = planSheet(sheetStrokes(sheet), design.cutter, { simulate: false });
  const { width, height, colour } = sheet.stock;
  const layers = passes.map(p => ({ operation: p.operation, paths: p.drawn }));
  const letter = (text: string, tall: number) => tools.letter(text, LEGEND_FACE, tall);
  const drawing = { name: sheet.id, width, height, layers };
  const subject = { drawing, paper: colour, arts: sheetArts(sheet, design.bleed) };
  return drawingPicture(subject, design.convention, letter);
}

/** The nets as they are folded: before they were cut up to fit their sheets. */
export function wholeBox({ box, decals }: Pick<PlannedPictures, 'box' | 'decals'>): {
  readonly nets: readonly Net[];
  readonly decals: readonly Decal[];
} {
  const whole = new Map(
    box.whole.flatMap((net, i) => box.parts[i]!.map(part => [part.id, net.id] as const)),
  );
  return { nets: box.whole, decals: decals.map(d => ({ ...d, net: whole.get(d.net) ?? d.net })) };
}
