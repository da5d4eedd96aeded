/** Text and figures flowing down pages: the marks of each page, in reading order. Inside, y runs down from
 *  the top of the page; marks have y up. */
import { roundedPolygon } from '../geom/index.js';
import type { Colour, Figure, Mark, Tag } from './figure.js';
import type { TextMetrics } from './text-metrics.js';

export interface PageSize {
  readonly width: number;
  readonly height: number;
}
/** ISO 216, and ANSI/ASME Y14.1 size A. */
export const PAGE_SIZES = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
} as const;

export const MARGIN = 15;
/** Left free under the text for the foot. */
const FOOT = 9;

export interface TextStyle {
  /** The em, mm. */
  readonly size: number;
  readonly bold?: boolean;
  readonly colour?: Colour;
  /** From baseline to baseline, in ems. */
  readonly leading?: number;
}
const LEADING = 1.36;
/** From the top of a line to its baseline, in ems. */
const ASCENT = 1.02;

export const lineHeight = ({ size, leading = LEADING }: TextStyle): number => size * leading;

/** A whole number stays with its fraction, and a length with its unit. */
const kept = (text: string) => text.replace(/(\d) (?=\d+\/\d|(?:in|mm|cm|m|yd)\b)/g, '$1\u00a0');

/** Lines no wider than `width`. Words longer than a line are broken; a line that ends between words has a
 *  space at its end, so that who reads on without seeing the break hears two words. */
export function wrapped(
  text: string,
  width: number,
  { size, bold }: TextStyle,
  metrics: TextMetrics,
): string[] {
  const wide = (t: string) => metrics.width(t, size, bold);
  const space = wide(' ');
  const lines: string[] = [];
  let line = '';
  let long = 0;
  for (const word of kept(text)
    .split(/[ \t\n]+/)
    .filter(w => w !== '')) {
    const own = wide(word);
    if (line === '' ? own <= width : long + space + own <= width) {
      long = line === '' ? own : long + space + own;
      line = line === '' ? word : `${line} ${word}`;
      continue;
    }
    if (line !== '') lines.push(`${line} `);
    line = '';
    if (own <= width) {
      line = word;
      long = own;
      continue;
    }
    // At its hyphens, or anywhere.
    for (const char of word.split(/(?<=-)/).flatMap(w => (wide(w) <= width ? [w] : [...w]))) {
      if (line !== '' && wide(line + char) > width) {
        lines.push(line);
        line = '';
      }
      line += char;
    }
    long = wide(line);
  }
  if (line !== '') lines.push(line);
  return lines.map(l => l.replaceAll('\u00a0', ' '));
}

/** At most so many lines; what is left out is shown by an ellipsis. */
export function clampedTo(
  lines: readonly string[],
  most: number,
  width: number,
  style: TextStyle,
  metrics: TextMetrics,
): string[] {
  if (lines.length <= most) return [...lines];
  const kept = lines.slice(0, most);
  let last = kept.at(-1)!;
  while (last.length > 1 && metrics.width(`${last}…`, style.size, style.bold) > width) {
    last = last.slice(0, -1).trimEnd();
  }
  return [...kept.slice(0, -1), `${last}…`];
}

export class PageFlow {
  readonly pages: Mark[][] = [];
  /** Where the next block begins, down from the top. */
  y = 0;
  /** What is added now belongs to this; nothing is ornament. */
  private tag: Tag | undefined = { type: 'Document' };

  constructor(
    readonly size: PageSize,
    readonly metrics: TextMetrics,
  ) {
    this.newPage();
  }

  get left(): number {
    return MARGIN;
  }
  get width(): number {
    return this.size.width - 2 * MARGIN;
  }
  get bottom(): number {
    return this.size.height - MARGIN - FOOT + 4;
  }
  get room(): number {
    return this.bottom - this.y;
  }
  /** Nothing stands on the page yet. */
  get fresh(): boolean {
    return this.y <= MARGIN;
  }

  /** Room that was left on the pages that are done. */
  readonly over: number[] = [];

  newPage(): void {
    if (this.pages.length > 0) this.over.push(this.room);
    this.pages.push([]);
    this.y = MARGIN;
  }

  /** Goes on on a new page where there is less room than this. */
  need(height: number): void {
    if (this.room < height && !this.fresh) this.newPage();
  }

  add(...marks: readonly Mark[]): void {
    const { tag } = this;
    this.pages.at(-1)!.push(...(tag ? [{ kind: 'tagged', tag, marks } as const] : marks));
  }

  /** What `draw` adds is an element of the structure. */
  as<T>(type: Tag['type'], draw: () => T, more: Pick<Tag, 'alt' | 'scope'> = {}): T {
    // What is in an ornament is one.
    return this.under(this.tag && { type, within: this.tag, ...more }, draw);
  }

  /** The element that is drawn now, for those that are gone back to. */
  get element(): Tag | undefined {
    return this.tag;
  }
  under<T>(tag: Tag | undefined, draw: () => T): T {
    const before = this.tag;
    this.tag = tag;
    const result = draw();
    this.tag = before;
    return result;
  }
  /** Is seen and not read. */
  ornament<T>(draw: () => T): T {
    return this.under(undefined, draw);
  }

  /** Lines from a top edge; gives where they end. */
  lines(lines: readonly string[], x: number, top: number, style: TextStyle): number {
    const { size, bold = false, colour = 'ink' } = style;
    const step = lineHeight(style);
    lines.forEach((text, i) => {
      const y = this.size.height - (top + i * step + ASCENT * size);
      this.add({ kind: 'words', text, at: [x, y], size, anchor: 'start', bold, colour });
    });
    return top + lines.length * step;
  }

  /** A paragraph across the page, moved to the next one where it does not fit. */
  paragraph(text: string, style: TextStyle, x = this.left, width = this.width): void {
    const lines = wrapped(text, width, style, this.metrics);
    this.need(lines.length * lineHeight(style));
    this.y = this.as('P', () => this.lines(lines, x, this.y, style));
  }

  figure(figure: Figure, x: number, top: number): void {
    this.add({ kind: 'placed', figure, at: [x, this.size.height - top - figure.height] });
  }

  /** A figure as large as its room lets it be, in the middle of it. */
  fitted(figure: Figure, x: number, top: number, width: number, height: number): void {
    const scale = Math.min(width / figure.width, height / figure.height);
    const left = x + (width - scale * figure.width) / 2;
    const low = this.size.height - top - (height + scale * figure.height) / 2;
    this.add({ kind: 'placed', figure, at: [left, low], scale });
  }

  /** A card with round corners. */
  card(x: number, top: number, width: number, height: number, fill: Colour = 'card'): void {
    const [y0, y1] = [this.size.height - top - height, this.size.height - top];
    const corners = [
      [x, y0],
      [x + width, y0],
      [x + width, y1],
      [x, y1],
    ] as const;
    const paths = [roundedPolygon(corners, 2.5)];
    this.ornament(() => this.add({ kind: 'shape', paths, fill }));
  }

  /** A hair line across. */
  rule(x: number, width: number, top: number): void {
    const y = this.size.height - top;
    const path = {
      start: [x, y] as const,
      segments: [{ kind: 'line' as const, to: [x + width, y] as const }],
      closed: false,
    };
    const line = { colour: 'hair', width: 0.15 } as const;
    this.ornament(() => this.add({ kind: 'shape', paths: [path], line }));
  }
}
