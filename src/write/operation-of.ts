/** Which operation a foreign file's path is for, by the name or the colour it was given. */
import type { Convention, Operation } from '../model.js';
import { OPERATIONS } from '../model.js';

/** A group's or layer's name that is an operation's, whatever its case. */
export function operationByName(name: string | null | undefined): Operation | undefined {
  const plain = name?.trim().toLowerCase();
  return OPERATIONS.find(o => o === plain);
}

/** CSS's sixteen basic names: enough for the colours people give to lines. */
const NAMED: Readonly<Record<string, string>> = {
  black: '#000000',
  silver: '#c0c0c0',
  gray: '#808080',
  white: '#ffffff',
  maroon: '#800000',
  red: '#ff0000',
  purple: '#800080',
  fuchsia: '#ff00ff',
  magenta: '#ff00ff',
  green: '#008000',
  lime: '#00ff00',
  olive: '#808000',
  yellow: '#ffff00',
  navy: '#000080',
  blue: '#0000ff',
  teal: '#008080',
  aqua: '#00ffff',
  cyan: '#00ffff',
};

/** A CSS colour as `#rrggbb` in small letters; `undefined` for none and for what we do not know. */
export function hexOf(colour: string | undefined): string | undefined {
  const text = colour?.trim().toLowerCase() ?? '';
  if (/^#[0-9a-f]{6}$/.test(text)) return text;
  if (/^#[0-9a-f]{3}$/.test(text)) return `#${[...text.slice(1)].map(c => c + c).join('')}`;
  const rgb = /^rgb\(\s*(\d{1,3})\s*,\s*(\d{1,3})\s*,\s*(\d{1,3})\s*\)$/.exec(text);
  if (rgb) {
    const parts = rgb.slice(1).map(v => Math.min(255, Number(v)).toString(16).padStart(2, '0'));
    return `#${parts.join('')}`;
  }
  return Object.hasOwn(NAMED, text) ? NAMED[text] : undefined;
}

export function operationByColour(
  colour: string | undefined,
  convention: Convention | undefined,
): Operation | undefined {
  const hex = hexOf(colour);
  if (hex === undefined || !convention) return undefined;
  return OPERATIONS.find(o => convention.operations[o].colour.toLowerCase() === hex);
}

/** By AutoCAD colour index. */
export function operationByAci(
  aci: number | undefined,
  convention: Convention | undefined,
): Operation | undefined {
  if (aci === undefined || !convention) return undefined;
  return OPERATIONS.find(o => convention.operations[o].aci === Math.abs(aci));
}
