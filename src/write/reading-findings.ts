/** What reading a file found, for the person: how large others may take it, and what was left out. */
import type { Finding } from '../model.js';
import { MM_PER_INCH } from '../units/length.js';
import type { ImportSize, ImportWay, Reading } from './reading.js';

/** Sheets by their sizes, mm (ISO 216; ANSI/ASME Y14.1; the trade's usual craft sheet). */
const SHEETS: readonly (readonly [name: string, width: number, height: number])[] = [
  ['A5', 148, 210],
  ['A4', 210, 297],
  ['A3', 297, 420],
  ['Letter', 215.9, 279.4],
  ['Legal', 215.9, 355.6],
  ['12 × 12 in', 304.8, 304.8],
  ['12 × 24 in', 304.8, 609.6],
];
/** Drawing programs round the size of a page to whole points. */
const LIKE_MM = 0.4;

const WORDS: Readonly<Record<ImportWay, string>> = {
  size: 'by its size',
  '96': 'at 96 units to the inch',
  '90': 'at 90',
  '72': 'at 72',
  mm: 'in millimetres',
  in: 'in inches',
};

/** Told only where the size matters: a file that does not say it, or says it in a unit that software which
 *  counts plain numbers does not expect. */
export function readingFindings({ sizes, readAs, notes }: Reading): Finding[] {
  const found = notes.map(note => asFinding('reading', 'note', note));
  if (readAs !== 'size') {
    const ways = sizes.map(sizeWords).join(', ');
    const message = `the file does not say its size: ${ways}; ${WORDS[readAs]} was taken: measure it after import`;
    return [asFinding('size', 'warning', message), ...found];
  }
  const inMm = sizes.find(s => s.as === 'mm');
  if (inMm && Math.abs(inMm.scale - 1) > 1e-6) {
    const unit = Math.abs(inMm.scale * MM_PER_INCH - 1) < 1e-6 ? 'in inches' : 'not in millimetres';
    const message = `its numbers are ${unit}: software that passes over the unit takes ${plain(inMm)}; measure it after import`;
    return [asFinding('size', 'note', message), ...found];
  }
  return found;
}

const asFinding = (kind: string, severity: Finding['severity'], message: string): Finding => ({
  kind,
  severity,
  message,
  places: [],
  total: 0,
});

function sizeWords(size: ImportSize): string {
  const sheet = SHEETS.find(([, w, h]) => {
    const like = (a: number, b: number) => Math.abs(a - b) <= LIKE_MM;
    return (
      (like(size.width, w) && like(size.height, h)) || (like(size.width, h) && like(size.height, w))
    );
  });
  return `${plain(size)} ${WORDS[size.as]}${sheet ? ` (${sheet[0]})` : ''}`;
}

const plain = ({ width, height }: ImportSize) => `${short(width)} × ${short(height)} mm`;
const short = (mm: number) => String(Number(mm.toFixed(mm < 10 ? 2 : 1)));
