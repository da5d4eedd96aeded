/**
 * Takes the printed grid out of a stamped page, so that nothing of it is left to be joined to ink. Each line
 * is learnt for itself: printers, and what renders pages for them, put thin lines on their own dots, up to
 * half a dot beside their place, and a line at its mean place would leave a rim of the true one.
 */
import type { Darkness } from './darkness.js';

/** Half the width over which a printed line of the grid is spread, mm. */
const LINE_MM = 0.6;
/** Offsets from a line are told apart this finely, mm, where a line cannot be learnt for itself. */
const BIN_MM = 0.05;
/** Darker than this is ink, and tells nothing of the grid. */
const PALE = 60;
/** Where paper beside a line is darker by this than bare paper is, there is ink: pale ink as well. */
const BARE = 8;
/** So many pixels on each side of a line tell whether it is bare there. */
const BESIDE = 4;
/** Bare length by which a line is known, mm. */
const KNOWN_MM = 10;

/**
 * Takes a printed grid out, whose lines stand at every `pitch` mm of the sheet both ways: what a line adds
 * is learnt from where it lies bare, and for lines all under ink from the others. Where nothing is printed
 * nothing changes.
 */
export function withoutGrid(dark: Darkness, pitch: number): Darkness {
  const { width, height, perMm, minX, maxY } = dark;
  const bins = Math.ceil(LINE_MM / BIN_MM);
  const off = (v: number) => Math.abs(v - Math.round(v / pitch) * pitch);
  const binOf = (mm: number) => Math.min(bins, Math.floor(off(mm) / BIN_MM));
  const binX = Array.from({ length: width }, (_, i) => binOf(minX + (i + 0.5) / perMm));
  const binY = Array.from({ length: height }, (_, j) => binOf(maxY - (j + 0.5) / perMm));
  const seen = Array.from({ length: bins + 1 }, () => new Uint32Array(PALE));
  for (let j = 0; j < height; j += 2) {
    for (let i = 0; i < width; i++) {
      const v = dark.data[j * width + i]!;
      // Beside one line only: crossings are twice as dark.
      if (v < PALE && (binY[j] === bins || binX[i] === bins)) {
        seen[Math.min(binX[i]!, binY[j]!)]![v]!++;
      }
    }
  }
  const paper = middleOf(seen[bins]!);
  const usual = seen.map(s => Math.max(0, middleOf(s) - paper));
  if (Math.max(...usual) < 1) return dark;
  const page = { dark, paper, usual };
  const upright = added(page, binX, { step: 1, along: width, clear: binY.map(b => b === bins) });
  const level = added(page, binY, { step: width, along: 1, clear: binX.map(b => b === bins) });
  const data = new Uint8Array(dark.data);
  for (let j = 0; j < height; j++) {
    const y = level[j]!;
    for (let i = 0; i < width; i++) {
      const x = upright[i]!;
      if (x === 0 && y === 0) continue;
      const at = j * width + i;
      // Ink lies on the line: light passes both.
      const left = (1 - data[at]! / 255) / ((1 - x / 255) * (1 - y / 255));
      data[at] = Math.max(0, 255 * (1 - left) + 0.5);
    }
  }
  return { ...dark, data };
}

interface Page {
  readonly dark: Darkness;
  readonly paper: number;
  /** What lines add by bins from their middles, the mean of all. */
  readonly usual: readonly number[];
}
/** Across lines and along them: from a pixel to the next; where along them no other line crosses. */
interface Way {
  readonly step: number;
  readonly along: number;
  readonly clear: readonly boolean[];
}

/** What the lines that run one way add to each row of pixels beside them. */
function added(page: Page, bins: readonly number[], way: Way): number[] {
  const all = bins.map(bin => page.usual[bin]!);
  const last = page.usual.length - 1;
  // Beyond the last bin there is no line.
  bins.forEach((bin, i) => {
    if (bin === last) all[i] = 0;
  });
  for (let from = 0; from < bins.length; from++) {
    if (bins[from] === last) continue;
    let to = from;
    while (to < bins.length && bins[to] !== last) to++;
    const own = ownLine(page, from, to, bins.length, way);
    own?.forEach((value, k) => {
      all[from + k] = value;
    });
    from = to;
  }
  return all;
}

/** What the line in rows `from` up to `to` adds to each; `undefined` where too little of it is bare. */
function ownLine(page: Page, from: number, to: number, rows: number, { step, along, clear }: Way) {
  if (from < BESIDE || to + BESIDE > rows) return undefined;
  const { data, perMm } = page.dark;
  const counts = Array.from({ length: to - from }, () => new Uint32Array(PALE));
  const paper = new Uint32Array(PALE);
  const limit = BESIDE * (page.paper + BARE);
  let bare = 0;
  for (let a = 0; a < clear.length; a++) {
    if (!clear[a]) continue;
    const at = a * along;
    let [before, after] = [0, 0];
    for (let k = 1; k <= BESIDE; k++) {
      before += data[at + (from - k) * step]!;
      after += data[at + (to - 1 + k) * step]!;
    }
    if (before > limit || after > limit) continue;
    bare++;
    for (let k = 1; k <= BESIDE; k++) {
      paper[Math.min(PALE - 1, data[at + (from - k) * step]!)]!++;
      paper[Math.min(PALE - 1, data[at + (to - 1 + k) * step]!)]!++;
    }
    for (let i = from; i < to; i++) {
      counts[i - from]![Math.min(PALE - 1, data[at + i * step]!)]!++;
    }
  }
  if (bare < KNOWN_MM * perMm) return undefined;
  const level = middleOf(paper);
  return counts.map(c => Math.max(0, middleOf(c) - level));
}

function middleOf(counts: Uint32Array): number {
  const whole = counts.reduce((s, n) => s + n, 0);
  let [below, v] = [0, 0];
  while (v < counts.length - 1 && below + counts[v]! < whole / 2) below += counts[v++]!;
  return v - 0.5 + (whole / 2 - below) / Math.max(1, counts[v]!);
}
