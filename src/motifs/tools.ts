/** What motifs may ask for: letters and chance. */
import type { MotifTools, TextAsk } from '../contracts.js';
import type { Region } from '../model.js';
import { ParamError } from '../params.js';
import { type Face, letterLine, openFace } from './lettering.js';
import { seeded } from './random.js';
import { setText } from './text/set.js';

/** Bytes of each face by its name; a face may come in several files by alphabet. `keys` are those to
 *  choose from: a file of the person's own may be got without being among them. */
export type FontFiles = Pick<
  ReadonlyMap<string, Uint8Array | readonly Uint8Array[]>,
  'keys' | 'get'
>;

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
    const face = openFace(...(files instanceof Uint8Array ? [files] : files));
    open.set(name, face);
    return face;
  };
  const letter = remembered((text: string, font: string, height: number): readonly Region[] =>
    letterLine(faceOf(font), text, height),
  );
  const set = remembered((ask: TextAsk) => setText(faceOf(ask.font), ask));
  return { letter, set, seeded: seed => seeded(seed) };
}

function remembered<A extends readonly unknown[], V>(make: (...asked: A) => V): (...asked: A) => V {
  const known = new Map<string, V>();
  return (...asked) => {
    const key = JSON.stringify(asked);
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = make(...asked);
    if (known.size >= MOST_LINES) known.clear();
    known.set(key, made);
    return made;
  };
}
