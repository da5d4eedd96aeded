/** What motifs may ask for: letters and chance. */
import type { MotifTools } from '../contracts.js';
import type { Region } from '../model.js';
import { ParamError } from '../params.js';
import { type Face, letterLine, openFont } from './lettering.js';
import { seeded } from './random.js';

/** Bytes of each face by its name; a face may come in several files by alphabet. */
export type FontFiles = ReadonlyMap<string, Uint8Array | readonly Uint8Array[]>;

/** Lines that are remembered: a job's labels say the same words many times, and welding is slow. */
const MOST_LINES = 500;

/** Tools over fonts that the caller has read. A font is opened when it is first written with. */
export function makeMotifTools({ fonts }: { readonly fonts: FontFiles }): MotifTools {
  const open = new Map<string, Face>();
  const faceOf = (name: string): Face => {
    const known = open.get(name);
    if (known) return known;
    const files = fonts.get(name);
    if (!files) {
      const names = [...fonts.keys()].join(', ') || 'none';
      throw new ParamError('font', name, `the faces are ${names}`, 'choose one of these');
    }
    const face = files instanceof Uint8Array ? openFont(files) : openFont(...files);
    open.set(name, face);
    return face;
  };
  const lines = new Map<string, readonly Region[]>();
  const letter: MotifTools['letter'] = (text, font, height) => {
    const key = JSON.stringify([text, font, height]);
    const known = lines.get(key);
    if (known) return known;
    const line = letterLine(faceOf(font), text, height);
    if (lines.size >= MOST_LINES) lines.clear();
    lines.set(key, line);
    return line;
  };
  return {
    letter,
    seeded: seed => seeded(seed),
  };
}
