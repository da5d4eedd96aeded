/** The programs of our pages, as `npm run build` bundled it. */
import { readFileSync } from 'node:fs';
import type { PageProgram } from '../write/index.js';

/** The same folder from the sources and from what is built of them. */
const FOLDER = new URL('../../dist/page/', import.meta.url);

const known = new Map<string, PageProgram>();

/** The program and the looks of a page, read once a run. Throws where they were not built. */
export function pageProgram(page: 'preview' | 'contact'): PageProgram {
  const read = (name: string) => {
    try {
      return readFileSync(new URL(name, FOLDER), 'utf8').trim();
    } catch (error) {
      throw new Error(`the page's ${name} was not built: run "npm run build"`, { cause: error });
    }
  };
  const program = known.get(page) ?? { script: read(`${page}.js`), style: read(`${page}.css`) };
  known.set(page, program);
  return program;
}
