/** From what a person typed to the text of a job: every command makes its design the same way. */
import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { faultOfSize, formatFaults, PRESET_FOLDERS, type Source } from '../job/index.js';
import { type Environment, InputError } from './environment.js';
import { presetStore } from './preset-files.js';

/** A job file, or a preset of a job or a box by its name. Throws `InputError` where there is neither. */
export function readJobFile(job: string, environment: Environment): Source {
  const file = resolve(environment.cwd, job);
  const stat = statSync(file, { throwIfNoEntry: false });
  if (stat?.isFile()) {
    const tooLarge = faultOfSize(job, stat.size);
    if (tooLarge) throw new InputError(formatFaults([tooLarge]));
    try {
      return { file: job, text: readFileSync(file, 'utf8') };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      throw new InputError(`Cannot read ${job}: ${why}`);
    }
  }
  for (const kind of ['job', 'box'] as const) {
    const text = presetStore(environment).text(kind, job);
    if (text !== undefined) return { file: `presets/${PRESET_FOLDERS[kind]}/${job}.yaml`, text };
  }
  if (stat?.isDirectory()) {
    throw new InputError(`${job} is a folder; name the job file in it, ending in .yaml.`);
  }
  throw new InputError(
    `There is no job file "${job}", nor a preset of that name. See: foldwright list jobs, foldwright list boxes`,
  );
}
