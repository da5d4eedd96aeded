/** One item, made: its files and what the manifest and the summary say of it. Plain data only, so
 *  that it can come from a worker. */
import { gluedFaces, type Proof, type Proven, proveWay, togetherFindings } from '../fold/index.js';
import { guideFiles } from '../item-guide.js';
import { itemPicture, netPicture } from '../item-pictures.js';
import { itemPreview } from '../item-preview.js';
import type { Cutter, Item, PageTone } from '../model.js';
import { type MadeSheet, makeSheet, type PlannedItem, planItem } from '../pipeline.js';
import {
  fileEntry,
  itemEntry,
  type ManifestClosure,
  type ManifestFile,
  type ManifestItem,
  type ManifestNet,
  type ManifestPlaced,
  type ManifestSheet,
  netEntry,
  pageTone,
  placedEntry,
  previewPage,
  sheetEntry,
  toPng,
} from '../write/index.js';
import { pageProgram } from './page-files.js';
import type { Session } from './session.js';

/** Pixels: the width of an item's picture. */
const CARD_PX = 480;
const NET_PX = 400;

export interface MadeItem {
  readonly name: string;
  readonly item: ManifestItem;
  readonly files: readonly { readonly entry: ManifestFile; readonly bytes: Uint8Array }[];
  readonly sheets: readonly ManifestSheet[];
  readonly closures: readonly ManifestClosure[];
  readonly nets: readonly ManifestNet[];
  readonly placed: readonly ManifestPlaced[];
  readonly warnings: readonly string[];
  /** Checks that failed: a net that does not fold, a tip that strays. */
  readonly failures: readonly string[];
}

/** What the manifest says of a sheet that was made. */
export function entryOf(
  item: string,
  { sheet, report, fromBack }: MadeSheet,
  cutter: Cutter,
  tone: PageTone | null = null,
): ManifestSheet {
  const { tip } = report;
  const told = tip?.compensated ?? tip?.uncompensated;
  const { blade } = cutter;
  return sheetEntry({
    item,
    sheet,
    lengths: report.lengths,
    travel: report.travelAfter,
    travelAsDrawn: report.travelBefore,
    seconds: report.seconds,
    tipError: told?.max ?? 0,
    tipError99: told?.p99 ?? 0,
    uncut: told?.uncutMax ?? 0,
    uncut99: told?.uncut99 ?? 0,
    uncompensated: tip?.uncompensated.max ?? 0,
    compensatedBy: blade.compensatedBy,
    bladeOffset: blade.offset,
    overcut: blade.overcut,
    kerf: blade.kerf ?? 0,
    foldsBy: cutter.folds?.by ?? 'tool',
    fromBack,
    tone,
    warnings: report.warnings,
  });
}

/** The laws and steps of each net. A law that is broken is a fault of the style's: it stops nothing and
 *  is told as a failed check. */
export const proofsOf = ({ nets }: PlannedItem): readonly Proven[] => nets.map(proveWay);

export async function makeItem(
  { design, kit }: Session,
  item: Item,
  plan: PlannedItem = planItem(item, design, kit),
): Promise<MadeItem> {
  const files: { entry: ManifestFile; bytes: Uint8Array }[] = [];
  const sheets: ManifestSheet[] = [];
  const warnings = [...plan.warnings];
  for (const sheet of plan.sheets) {
    const made = await makeSheet(item, sheet, design, kit);
    const tone = made.page ? await pageTone(made.page, kit.captionFonts) : null;
    sheets.push(entryOf(item.name, made, design.cutter, tone));
    warnings.push(...made.report.warnings.map(w => `${sheet.id}: ${w}`));
    for (const { path, bytes, holds } of made.files) {
      files.push({ entry: fileEntry(path, bytes, holds), bytes });
    }
  }
  const proofs = proofsOf(plan);
  const add = (ending: string, content: string | Uint8Array, holds: string) => {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const path = `${item.name}/${item.name}.${ending}`;
    files.push({ entry: fileEntry(path, bytes, holds), bytes });
  };
  const shown = design.formats.includes('preview');
  if (shown && item.box) {
    const page = previewPage(itemPreview(plan, design, proofs), pageProgram('preview'));
    add('preview.html', page, 'the box folding up, in a browser');
  }
  if (design.formats.includes('guide')) {
    const guide = await guideFiles(plan, design, kit, proofs);
    warnings.push(...guide.warnings);
    for (const { path, bytes, holds } of guide.files) {
      files.push({ entry: fileEntry(path, bytes, holds), bytes });
    }
  }
  if (shown) {
    add('folded.png', toPng(await itemPicture(plan, design, CARD_PX), CARD_PX), 'a picture of it');
  }
  const net = shown && netPicture(plan, design);
  if (net) add('net.png', toPng(net, NET_PX), 'a picture of its net');
  return {
    name: item.name,
    item: itemEntry(item),
    files,
    sheets,
    placed: plan.decals.map(d => placedEntry(item.name, d)),
    closures: closuresOf(item, plan),
    nets: netsOf(item, proofs),
    warnings,
    failures: failuresOf(plan, proofs),
  };
}

/** Of each net alone, then of the closed parts in their places, those of a net that was cut up too. */
export const failuresOf = (
  { nets }: Pick<PlannedItem, 'nets'>,
  proofs: readonly Proof[],
): string[] => {
  const alone = proofs.flatMap(brokenLaws);
  const stand = nets.length > 1 && nets.some(n => n.stands);
  if (alone.length > 0 || !stand) return alone;
  return brokenLaws({ findings: togetherFindings(nets) });
};

const brokenLaws = ({ findings }: Pick<Proof, 'findings'>): string[] =>
  findings.map(f => `${f.law}: ${f.message}`);

function netsOf(item: Item, proofs: readonly Proof[]): ManifestNet[] {
  const glue = gluedFaces(proofs.map(p => p.net));
  return proofs.map(proof => {
    const findings = brokenLaws(proof);
    return netEntry({ ...proof, item: item.name, findings, glue: glue.get(proof.net.id)! });
  });
}

const closuresOf = (item: Item, { closures }: PlannedItem): ManifestClosure[] =>
  closures.map(({ net, closure: { a, b, at, diameter } }) => ({
    item: item.name,
    net,
    a,
    b,
    at,
    diameterMm: diameter,
  }));
