/** Colours as people and files write them. */

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
