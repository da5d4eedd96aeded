/** What `box` tells about its nets beside the files to cut: the facts as JSON. */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Document } from '../job/index.js';
import { type PlannedItem, planItem } from '../pipeline.js';
import { writeNetJson } from '../write/index.js';
import { type Environment, InputError } from './environment.js';
import { openSession } from './session.js';

export interface BoxFacts {
  /** File that takes the nets. */
  readonly net?: string | undefined;
}

/** For a box that has been read and checked before. Throws `InputError` for a file that cannot be
 *  written. */
export function tellFacts(document: Document, facts: BoxFacts, environment: Environment): void {
  if (facts.net === undefined) return;
  const { design, kit } = openSession(document, {}, environment);
  for (const item of design.items) {
    const plan = planItem(item, design, kit);
    write(facts.net, netText(plan), environment);
  }
}

function netText({ item, proofs }: PlannedItem): string {
  return writeNetJson({ style: item.box?.style ?? '', nets: proofs });
}

function write(file: string, text: string, environment: Environment): void {
  try {
    writeFileSync(resolve(environment.cwd, file), text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`--net ${file}: cannot be written: ${why}`);
  }
}
