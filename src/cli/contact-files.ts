/** The contact sheet of a job's folder, as a page and as a picture. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Design } from '../model.js';
import { formatSides } from '../units/length.js';
import { ENGLISH } from '../words/english.js';
import {
  contactPage,
  contactPicture,
  fileEntry,
  type ManifestFacts,
  type ManifestFile,
  type ManifestItem,
} from '../write/index.js';
import { pageProgram } from './page-files.js';
import type { Session } from './session.js';

/** How the path of an item's picture ends. */
export const PICTURE = '.folded.png';
export const CONTACT_PAGE = 'index.html';

/** In the order of the job; those of other runs after them. */
export function inJobOrder(items: readonly ManifestItem[], { items: asked }: Design) {
  const at = new Map(asked.map(({ name }, i) => [name, i]));
  const order = ({ name }: ManifestItem) => at.get(name) ?? asked.length;
  return [...items].sort((a, b) => order(a) - order(b));
}

/** Nothing where previews are not asked for. `pictures` by path, as this run made them; others are read
 *  from the folder. */
export function contactFiles(
  facts: ManifestFacts,
  { design, kit }: Session,
  pictures: ReadonlyMap<string, Uint8Array>,
  folder: string,
): { entry: ManifestFile; bytes: Uint8Array }[] {
  if (!design.formats.includes('preview')) return [];
  const { unit, stocks } = design;
  const stockName = (id: string) => (stocks[id] ? ENGLISH.called(id, stocks[id].summary) : id);
  const page = contactPage(facts, { unit, stockName, words: ENGLISH }, pageProgram('contact'));
  const cards = facts.items.map(item => ({
    title: item.title,
    name: item.name,
    note: [formatSides(item.insideMm, unit), item.count > 1 ? `× ${item.count}` : '']
      .filter(Boolean)
      .join('   '),
    picture: pictureOf(`${item.name}/${item.name}${PICTURE}`, pictures, folder),
  }));
  const picture = contactPicture(
    { title: facts.title, name: facts.job },
    cards,
    kit.captionFonts.font,
    ENGLISH,
  );
  const file = (path: string, bytes: Uint8Array, holds: string) => ({
    entry: fileEntry(path, bytes, holds),
    bytes,
  });
  return [
    file(
      CONTACT_PAGE,
      new TextEncoder().encode(page),
      'the contact sheet: every item, for a browser',
    ),
    file('index.png', picture, 'the contact sheet as a picture'),
  ];
}

/** A picture of an earlier run may be gone. */
function pictureOf(path: string, pictures: ReadonlyMap<string, Uint8Array>, folder: string) {
  const made = pictures.get(path);
  if (made) return made;
  try {
    return readFileSync(join(folder, path));
  } catch {
    return undefined;
  }
}
