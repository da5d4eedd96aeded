/** The contact sheet as one picture: every item's own picture with its title and size under it. */

import type { Words } from '../words/english.js';
import { titleFor } from './guide-spelling.js';
import { type LetterOutlines, letterOutlines } from './letter-outlines.js';
import { num } from './number.js';
import { toPng } from './png.js';

export interface PictureCard {
  readonly title: string;
  /** Stands in place of a title that the face cannot spell. */
  readonly name: string;
  readonly note: string;
  /** A PNG of ours. */
  readonly picture?: Uint8Array | undefined;
}

const WIDTH = 1600;
/** Further ones stand on the page only: no program shows so tall a picture well. */
const MOST_CARDS = 200;
const MARGIN = 48;
const GAP = 24;
const TABLE = '#efe8dc';
const BOARD = '#f7f2e9';
const INK = '#3b3129';
const FAINT = '#6b5d50';
const [TITLE_PX, NOTE_PX, HEAD_PX] = [21, 16, 40];
const WORDS_PX = 74;

/** A PNG 1600 pixels wide. `font` has the files of one face; of a title that it cannot spell the name is set. */
export function contactPicture(
  whole: Pick<PictureCard, 'title' | 'name'>,
  all: readonly PictureCard[],
  font: Uint8Array | readonly Uint8Array[],
  { contact }: Words,
): Uint8Array {
  const letters = letterOutlines(font);
  const cards = all.slice(0, MOST_CARDS);
  const more = all.length - cards.length;
  const spelled = (of: Pick<PictureCard, 'title' | 'name'>) =>
    titleFor(of.title, of.name, letters.has);
  const title = spelled(whole);
  const head = more > 0 ? contact.first(title, cards.length, all.length) : title;
  const columns =
    cards.length > 24 ? 6 : cards.length > 8 ? 5 : Math.max(1, Math.min(4, cards.length));
  const side = (WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns;
  const tall = side * 0.75 + WORDS_PX;
  const top = MARGIN + HEAD_PX + 36;
  const rows = Math.ceil(cards.length / columns);
  const height = Math.ceil(top + rows * (tall + GAP) - GAP + MARGIN);
  const each = cards.map((card, i) => {
    const x = MARGIN + (i % columns) * (side + GAP);
    const y = top + Math.floor(i / columns) * (tall + GAP);
    return drawCard({ ...card, title: spelled(card) }, x, y, side, letters);
  });
  const heading = words(letters, head, MARGIN, MARGIN + HEAD_PX, HEAD_PX, INK, WIDTH - 2 * MARGIN);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}"><rect width="${WIDTH}" height="${height}" fill="${TABLE}"/>${heading}${each.join('')}</svg>`;
  return toPng(svg, WIDTH);
}

function drawCard(
  { title, note, picture }: PictureCard,
  x: number,
  y: number,
  side: number,
  letters: LetterOutlines,
): string {
  const tall = side * 0.75;
  const image = picture
    ? `<image x="${num(x)}" y="${num(y)}" width="${num(side)}" height="${num(tall)}" preserveAspectRatio="xMidYMid meet" href="data:image/png;base64,${Buffer.from(picture).toString('base64')}"/>`
    : '';
  return (
    `<rect x="${num(x)}" y="${num(y)}" width="${num(side)}" height="${num(tall + WORDS_PX)}" rx="12" fill="${BOARD}"/>` +
    `<rect x="${num(x)}" y="${num(y)}" width="${num(side)}" height="${num(tall)}" fill="${TABLE}"/>` +
    image +
    words(letters, title, x + 14, y + tall + 31, TITLE_PX, INK, side - 28) +
    words(letters, note, x + 14, y + tall + 56, NOTE_PX, FAINT, side - 28)
  );
}

/** One line, cut short with an ellipsis where it is too wide. */
function words(
  letters: LetterOutlines,
  text: string,
  x: number,
  baseline: number,
  size: number,
  colour: string,
  room: number,
): string {
  let line = text;
  if (letters.width(line, size) > room) {
    const all = [...text];
    let [fits, over] = [0, all.length];
    while (over - fits > 1) {
      const half = (fits + over) >> 1;
      if (letters.width(`${all.slice(0, half).join('')}…`, size) <= room) fits = half;
      else over = half;
    }
    line = `${all.slice(0, fits).join('').trimEnd()}…`;
  }
  const data = letters.data(line, size);
  return data === ''
    ? ''
    : `<path transform="translate(${num(x)} ${num(baseline)})" fill="${colour}" d="${data}"/>`;
}
