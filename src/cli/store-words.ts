/** What the file store says when the disk says no: the path, why, and what to do next. */
import { InputError } from './environment.js';

/** Why and what next, by the code that the system gives. */
const REASONS: Readonly<Record<string, readonly [why: string, next: string]>> = {
  EACCES: [
    'you may not write there',
    'choose another folder with --out, or change its permissions',
  ],
  EPERM: ['you may not write there', 'choose another folder with --out, or change its permissions'],
  EROFS: ['that disk can only be read', 'choose a folder on another disk with --out'],
  ENOSPC: ['the disk is full', 'make room, then run it again'],
  EDQUOT: ['your share of the disk is used up', 'make room, then run it again'],
  EFBIG: [
    'the disk does not take a file of that size',
    'choose a folder on another disk with --out',
  ],
  ENOTDIR: ['a part of that path is a file, not a folder', 'choose another folder with --out'],
  EEXIST: ['a part of that path is no folder', 'choose another folder with --out'],
  EISDIR: ['a folder stands where the file should go', 'move the folder away'],
  ENOENT: ['a part of that path leads nowhere', 'choose another folder with --out'],
  ELOOP: ['its links lead round in a circle', 'choose another folder with --out'],
  ENAMETOOLONG: ['the path is too long for that disk', 'choose a shorter folder or shorter names'],
  EXDEV: ['a folder inside it lies on another disk', 'choose another folder with --out'],
  EBUSY: ['another program holds it open', 'close that program, then run it again'],
  EMFILE: ['too many files are open', 'close some programs, then run it again'],
  ETXTBSY: ['another program holds it open', 'close that program, then run it again'],
};

/** An error of the system as words for a person. What is not known stays as it is: it is our fault
 *  until shown otherwise. */
export function diskError(path: string, error: unknown): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const reason = REASONS[code];
  if (!reason) return error;
  return new InputError(`Cannot write ${path}: ${reason[0]} (${code}); ${reason[1]}.`);
}

/** Runs one step on the disk; its failure is told with the path it was about. */
export function onDisk<T>(path: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    throw diskError(path, error);
  }
}
