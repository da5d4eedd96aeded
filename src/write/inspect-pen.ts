/** What the parts of an inspection's picture are drawn with: colours, marks, words as outlines. */
import type { Severity } from '../model.js';
import { type Colour, plainColour } from './figure.js';
import { letterOutlines } from './letter-outlines.js';
import { num } from './number.js';
import { type TextStyle, wrapped } from './page-flow.js';
import { type GuideFonts, textMetrics } from './text-metrics.js';

export const PAPER = '#fffdf8';
export const INK = '#3a3029';
export const FAINT = '#6f6257';
/** The drawing is a pale band, wide enough to show what the tip does on it. */
export const BAND = '#dcb27a';
export const TIP = '#33261c';
/** The file's own line, where it is not the drawing. */
export const FILE_LINE = { colour: '#4a7a8c', width: 1.6, dash: [6, 4] };

/** Half of a mark, px. */
export const MARK_PX = 13;

interface Look {
  readonly fill: string;
  readonly ink: Colour;
  readonly word: string;
}
export const LOOK: Readonly<Record<Severity, Look>> = {
  fault: { fill: '#8f2d14', ink: '#ffffff', word: 'Fault' },
  warning: { fill: '#f0b64a', ink: '#2c2119', word: 'Warning' },
  note: { fill: '#fffdf8', ink: '#3a3029', word: 'Note' },
};

/** Gathers the picture's text. */
export class Pen {
  text = '';
  private clips = 0;
  private readonly regular;
  private readonly bold;
  private readonly metrics;

  constructor(fonts: GuideFonts) {
    this.regular = letterOutlines(fonts.regular);
    this.bold = letterOutlines(fonts.bold);
    this.metrics = textMetrics(fonts);
  }

  add(element: string): void {
    this.text += element;
  }
  group(transform: string, body: () => void, more = ''): void {
    this.text += `<g transform="${transform}"${more}>`;
    body();
    this.text += '</g>';
  }
  /** Lines of a path in mm, `width` px wide at `scale`. */
  stroke(
    d: string,
    colour: string,
    width: number,
    scale: number,
    dash: readonly number[] = [],
  ): void {
    if (d === '') return;
    const dashes =
      dash.length > 0 ? ` stroke-dasharray="${dash.map(v => num(v / scale)).join(' ')}"` : '';
    this.text += `<path fill="none" stroke="${colour}" stroke-width="${num(width / scale)}" stroke-linejoin="round" stroke-linecap="${dash.length > 0 ? 'butt' : 'round'}"${dashes} d="${d}"/>`;
  }
  /** One line, its baseline at y; gives its width. */
  words(text: string, x: number, y: number, style: TextStyle, anchor = 0): number {
    const face = style.bold ? this.bold : this.regular;
    const width = face.width(text, style.size);
    const d = face.data(text, style.size);
    if (d !== '') {
      this.text += `<path transform="translate(${num(x - anchor * width)} ${num(y)})" fill="${plainColour(style.colour ?? INK)}" d="${d}"/>`;
    }
    return width;
  }
  wrap(text: string, width: number, style: TextStyle): string[] {
    return wrapped(text, width, style, this.metrics);
  }
  clip(shape: (id: string) => string): string {
    this.clips += 1;
    const id = `glass-${this.clips}`;
    this.text += `<clipPath id="${id}">${shape(id)}</clipPath>`;
    return id;
  }
}

/** A fault is a dark disc, a warning a square, a note an empty disc. */
export function drawMark(pen: Pen, severity: Severity, number: number, x: number, y: number): void {
  const { fill, ink } = LOOK[severity];
  const line = `fill="${fill}" stroke="${INK}" stroke-width="1.6"`;
  const r = MARK_PX - 1;
  pen.add(
    severity === 'warning'
      ? `<rect x="${num(x - r)}" y="${num(y - r)}" width="${2 * r}" height="${2 * r}" rx="4" ${line}/>`
      : `<circle cx="${num(x)}" cy="${num(y)}" r="${MARK_PX - 0.5}" ${line}/>`,
  );
  const style: TextStyle = { size: 15, bold: true, colour: ink };
  pen.words(String(number), x, y + 5.3, style, 0.5);
}
