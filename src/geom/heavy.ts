/**
 * The two large geometry libraries, loaded when first needed: importing this room must stay cheap for
 * those who only want a vector. Everything stays synchronous, hence `require`.
 */
import { createRequire } from 'node:module';
import type * as Clipper from 'clipper2-ts';
import type Paper from 'paper';

/** Made when first needed: a bundle for the browser, which needs none of this, drops it. */
const fromHere = () => createRequire(import.meta.url);

let clipperModule: typeof Clipper | undefined;
/** clipper2-ts: booleans and offsets of polygons. Its module is ESM: `require` reads it from Node 20.19. */
export function clipper(): typeof Clipper {
  clipperModule ??= fromHere()('clipper2-ts') as typeof Clipper;
  return clipperModule;
}

let paperScope: typeof Paper | undefined;
/** paper, without its script language and without a project that would collect every item made. */
export function paper(): typeof Paper {
  if (!paperScope) {
    paperScope = fromHere()('paper/dist/paper-core.js') as typeof Paper;
    paperScope.setup(new paperScope.Size(1, 1));
    paperScope.settings.insertItems = false;
  }
  return paperScope;
}
