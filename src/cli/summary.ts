/** The closing words of a run: what was made, from which paper, and what to mind. */
import type { Design } from '../model.js';
import type { ManifestFile, ManifestSheet } from '../write/index.js';
import type { StoreResult } from './store.js';

export interface RunResult {
  readonly job: string;
  readonly items: number;
  readonly failures: readonly string[];
  readonly warnings: readonly string[];
  /** Absent when the run only checked. */
  readonly files?: readonly ManifestFile[];
  readonly sheets?: readonly ManifestSheet[];
  readonly stored?: StoreResult;
}

const MOST_LINES = 30;

const many = (n: number, one: string, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;

function duration(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes < 1) return 'under a minute';
  if (minutes < 90) return `about ${many(minutes, 'minute')}`;
  return `about ${(minutes / 60).toFixed(1)} hours`;
}

function listed(title: string, lines: readonly string[]): string[] {
  if (lines.length === 0) return [];
  const shown = lines.slice(0, MOST_LINES).map(l => `  ${l}`);
  const rest = lines.length - shown.length;
  return ['', `${title}:`, ...shown, ...(rest > 0 ? [`  and ${rest} more`] : [])];
}

function paperLines(design: Design, sheets: readonly ManifestSheet[]): string[] {
  const count = new Map<string, number>();
  for (const s of sheets) count.set(s.stock, (count.get(s.stock) ?? 0) + s.copies);
  const wide = Math.max(0, ...[...count.values()].map(n => String(n).length));
  return [...count].map(
    ([id, n]) => `  ${String(n).padStart(wide)} × ${id}: ${design.stocks[id]?.summary ?? ''}`,
  );
}

/** What the order of the cuts saves. A short way is not worth a line. */
function travelLines(sheets: readonly ManifestSheet[]): string[] {
  const metres = (of: (s: ManifestSheet) => number) =>
    Math.round(sheets.reduce((sum, s) => sum + s.copies * of(s), 0) / 1000);
  const [before, after] = [metres(s => s.travelAsDrawnMm), metres(s => s.travelMm)];
  return before > after
    ? [`  The lifted tool goes ${after} m; in the order of the drawing it would be ${before} m.`]
    : [];
}

/** Who allows for the blade, in so many words: twice spoils every corner. */
export function bladeLines({ cutter: { blade } }: Design): string[] {
  if (blade.kerf !== undefined) {
    return blade.compensatedBy === 'file'
      ? [
          `Beam: its kerf of ${blade.kerf} mm IS allowed for in these files.`,
          '  Set the kerf to 0 in your cutting software, or every piece comes out too large.',
        ]
      : [
          `Beam: its kerf of ${blade.kerf} mm is NOT allowed for in these files.`,
          '  Your cutting software must do it, or: --compensated-by file',
        ];
  }
  if (!(blade.offset > 0)) return ['Blade: no offset to allow for.'];
  return blade.compensatedBy === 'file'
    ? [
        `Blade: its offset of ${blade.offset} mm IS allowed for in these files.`,
        '  Set the blade offset to 0 in your cutting software, or every corner is spoilt.',
      ]
    : [
        `Blade: its offset of ${blade.offset} mm is NOT allowed for in these files.`,
        '  Your cutting software must do it; most do. If yours does not: --compensated-by file',
      ];
}

/** How a sheet that is scored from both sides is laid: the turned side first, while it has its edges. */
function turnLines(sheets: readonly ManifestSheet[]): string[] {
  const turned = sheets.filter(s => s.fromBackMm > 0);
  if (turned.length === 0) return [];
  const copies = turned.reduce((n, s) => n + s.copies, 0);
  const sizes = [...new Set(turned.map(s => `${s.widthMm} mm`))].join(' or ');
  return [
    `Turned over first: ${many(copies, 'sheet')} with a .back file. Lay the whole sheet with the side up that`,
    '  will be outside, its lower left corner against your stops, and score the .back file. Turn it as you',
    '  turn a page, its lower edge against the same stop, and do the .cut file of the same name. The lines',
    `  meet as well as the paper is true to size: measure that it is ${sizes} wide, within 0.2 mm.`,
  ];
}

/** What a person must know of folds that no scoring tool makes. */
function foldLines({ cutter: { folds } }: Design): string[] {
  switch (folds?.by) {
    case 'pen':
      return ['Folds are drawn, on the draw layer: crease them along a ruler with a bone folder.'];
    case 'perforation':
      return ['Folds are cut through in dashes: the score layer is for the cutting tool as well.'];
    case 'light-cut':
      return [
        'Folds are cut lightly: the score layer is for the cutting tool, at a lower pressure.',
        '  Try it on a scrap of the same card first.',
      ];
    default:
      return [];
  }
}

export function summaryText(result: RunResult, design: Design, folder: string): string {
  const { sheets, files, stored } = result;
  const lines: string[] = [];
  if (!sheets || !files || !stored) {
    lines.push(`${design.title}: ${many(result.items, 'item')} checked, nothing written.`);
  } else {
    const copies = sheets.reduce((n, s) => n + s.copies, 0);
    const seconds = sheets.reduce((n, s) => n + s.copies * s.seconds, 0);
    lines.push(
      `${design.title}: ${many(result.items, 'item')}, ${many(files.length, 'file')} in ${folder}`,
    );
    if (stored.untouched.length > 0) {
      lines.push(
        `  ${stored.written.length} written, ${stored.untouched.length} were the same already`,
      );
    }
    if (stored.removed.length > 0) {
      lines.push(`  ${stored.removed.length} of an earlier run removed`);
    }
    lines.push(
      '',
      `Paper, ${many(copies, 'sheet')}; ${duration(seconds)} of cutting, changing sheets not counted:`,
      ...paperLines(design, sheets),
      ...travelLines(sheets),
    );
    const printed = files.filter(f => f.path.endsWith('.print.pdf')).length;
    if (printed > 0) {
      lines.push(
        '',
        `Print first: ${many(printed, 'sheet')} with a .print.pdf, at actual size, no scaling. Then cut`,
        '  with the .cut file of the same name, whose register marks stand in the same places.',
      );
    }
    lines.push('', ...bladeLines(design), ...foldLines(design), ...turnLines(sheets));
    if (stored.left.length > 0) {
      lines.push(...listed('Of an earlier run, changed by hand since and so left', stored.left));
    }
  }
  lines.push(...listed('Checks that failed', result.failures));
  lines.push(...listed('To mind', result.warnings));
  if (result.failures.length === 0) lines.push('', 'Every fold closes and every check passed.');
  return lines.join('\n');
}

/** Where the contact sheet is; it is for the person to open. */
export function placeText({ items, stored }: RunResult, folder: string): string {
  const changed = (stored?.written.length ?? 0) + (stored?.removed.length ?? 0);
  const fresh = changed > 0 ? `${many(changed, 'file')} made anew` : 'nothing had changed';
  return [
    `${folder}/index.html: ${many(items, 'item')}, ${fresh}.`,
    `${folder}/index.png: the same as a picture.`,
    'Open either of them; nothing was opened for you.',
  ].join('\n');
}
