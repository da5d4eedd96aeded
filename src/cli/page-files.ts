/** The preview's program, as `npm run build` bundled it. */
import { readFileSync } from 'node:fs';
import type { PageProgram } from '../write/index.js';

/** The same folder from the sources and from what is built of them. */
const FOLDER = new URL('../../dist/page/', import.meta.url);

let known: PageProgram | undefined;

/** Read once a run. Throws where the program was not built. */
export function pageProgram(): PageProgram {
  const read = (name: string) => {
    try {
      return readFileSync(new URL(name, FOLDER), 'utf8').trim();
    } catch (error) {
      throw new Error(`the preview's ${name} was not built: run "npm run build"`, { cause: error });
    }
  };
  known ??= { script: read('preview.js'), style: read('preview.css') };
  return known;
}
