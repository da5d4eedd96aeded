/** One file that a person named, written whole or not at all. */
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Environment, InputError } from './environment.js';

/** Under a name of its own first, so that no half file is left. Throws `InputError` that names the flag. */
export function writeWhole(
  flag: string,
  file: string,
  bytes: Uint8Array | string,
  { cwd }: Pick<Environment, 'cwd'>,
): void {
  const path = resolve(cwd, file);
  const part = `${path}.part`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(part, bytes);
    renameSync(part, path);
  } catch (error) {
    if (existsSync(part)) rmSync(part);
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`${file} cannot be written (${why}). Give another name with ${flag}.`);
  }
}
