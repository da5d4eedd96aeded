/** One picture of one item, as large as it is asked for. */
import { itemPicture, netPicture, sheetPicture } from '../item-pictures.js';
import { type Document, type Fault, formatFaults, nearest, type Source } from '../job/index.js';
import type { Item } from '../model.js';
import { type PlannedItem, planItem } from '../pipeline.js';
import { toPng } from '../write/index.js';
import { type Environment, InputError } from './environment.js';
import { openSession, type Session } from './session.js';
import { writeWhole } from './write-whole.js';

export interface PictureAsk {
  /** The first of the job where none is named. */
  readonly item?: string | undefined;
  /** `folded`, `net` or the id of a sheet. */
  readonly of: string;
  readonly width: number;
  /** File that takes the picture. */
  readonly png: string;
}

/** Throws `InputError` for a job with faults, for an item and a subject that there are not, and for a file
 *  that cannot be written. */
export async function makePicture(
  source: Source | Document,
  ask: PictureAsk,
  environment: Environment,
): Promise<void> {
  if (!/\.png$/i.test(ask.png)) {
    throw new InputError(`--png ${ask.png}: allowed is a name that ends in .png.`);
  }
  const session = openSession(source, {}, environment);
  const item = itemOf(session, ask.item);
  const plan = planItem(item, session.design, session.kit);
  refuseFaults(plan, session);
  const svg = await svgOf(plan, ask, session);
  writeWhole('--png', ask.png, toPng(svg, ask.width), environment);
  environment.out(`${ask.png}: ${item.title}, ${ask.of}, ${ask.width} pixels wide`);
}

async function svgOf(plan: PlannedItem, { of, width }: PictureAsk, session: Session) {
  const { design, kit } = session;
  if (of === 'folded') return itemPicture(plan, design, width);
  if (of === 'net' && plan.item.box) return netPicture(plan, design)!;
  const sheet = plan.sheets.find(s => s.id === of);
  if (sheet) return sheetPicture(sheet, design, kit.tools);
  const known = ['folded', ...(plan.item.box ? ['net'] : []), ...plan.sheets.map(s => s.id)];
  const near = nearest(of, known);
  throw new InputError(
    `--of ${of}: ${plan.item.name} has no such picture.${near ? ` Did you mean ${near}?` : ''} Allowed: ${known.join(', ')}.`,
  );
}

function itemOf({ design }: Session, name: string | undefined): Item {
  const [first] = design.items;
  if (name === undefined) return first!;
  const found = design.items.find(i => i.name === name);
  if (found) return found;
  const names = design.items.map(i => i.name);
  const near = nearest(name, names);
  throw new InputError(
    `The job has no item "${name}"${near ? ` (did you mean ${near}?)` : ''}. Its items are:\n  ${names.join('\n  ')}`,
  );
}

function refuseFaults({ item, faults }: PlannedItem, { faultOf }: Session): void {
  if (faults.length === 0) return;
  const told = faults.map(({ decoration, feature, message, hint }): Fault => {
    const part =
      decoration !== undefined ? { decoration } : feature !== undefined ? { feature } : 'size';
    return faultOf(item.name, part, message, hint === undefined ? {} : { hint });
  });
  throw new InputError(formatFaults(told));
}
