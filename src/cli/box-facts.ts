/** What `box` tells about its nets beside the files to cut: the facts as JSON, the recipe by hand. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { drawNet, gluedFaces, proveNet } from '../fold/index.js';
import { noRecipeWords, recipeFor, recipeLines } from '../guide/index.js';
import type { Document } from '../job/index.js';
import type { Design } from '../model.js';
import { type PlannedItem, planItem } from '../pipeline.js';
import { writeNetJson } from '../write/index.js';
import { type Environment, InputError } from './environment.js';
import { openSession } from './session.js';

export interface BoxFacts {
  /** File that takes the nets. */
  readonly net?: string | undefined;
  readonly recipe?: true | undefined;
  readonly json?: true | undefined;
}

/** For a box that has been read and checked before. Throws `InputError` for a file that cannot be
 *  written. */
export function tellFacts(document: Document, facts: BoxFacts, environment: Environment): void {
  if (facts.net === undefined && !facts.recipe) return;
  const { design, kit } = openSession(document, {}, environment);
  for (const item of design.items) {
    const plan = planItem(item, design, kit);
    if (facts.net !== undefined) write(facts.net, netText(plan), environment);
    if (!facts.recipe) continue;
    const lines = ['', 'By hand:', ...recipes(plan, design)];
    // What is printed as JSON stays JSON.
    (facts.json ? environment.err : environment.out)(lines.join('\n'));
  }
}

function netText({ item, nets }: PlannedItem): string {
  const glue = gluedFaces(nets);
  const proven = nets.map(net => ({ ...proveNet(net), glue: glue.get(net.id)! }));
  return writeNetJson({ style: item.box?.style ?? '', nets: proven });
}

function recipes({ nets, item }: PlannedItem, design: Design): string[] {
  let marked = false;
  const told = nets.flatMap(net => {
    const recipe = recipeFor(net, drawNet(net));
    if ('none' in recipe) {
      return [`${net.title} (${net.id}): no recipe, since ${noRecipeWords(recipe.none)}.`];
    }
    marked = true;
    return recipeLines(recipe, design.unit);
  });
  const even = marked && !item.box?.rounding;
  return [...told, ...(even ? ['For even marks add --round 1/16in or --round 1mm.'] : [])];
}

function write(file: string, text: string, environment: Environment): void {
  try {
    const path = resolve(environment.cwd, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`--net ${file}: cannot be written: ${why}`);
  }
}
