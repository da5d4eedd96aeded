/** Runs a program of others. One that is missing fails the test with what to install. */
import { spawnSync } from 'node:child_process';

const PACKAGE: Readonly<Record<string, string>> = {
  '/usr/bin/python3': 'python3-ezdxf python3-opencv',
  qpdf: 'qpdf',
  pdffonts: 'poppler-utils',
  pdfinfo: 'poppler-utils',
  pdftoppm: 'poppler-utils',
  pdftotext: 'poppler-utils',
  pdfimages: 'poppler-utils',
};

export interface Ran {
  readonly code: number | null;
  readonly stdout: Buffer;
  readonly stderr: string;
}

export function run(program: string, args: readonly string[], input?: string | Uint8Array): Ran {
  const done = spawnSync(program, args, { input, maxBuffer: 1 << 28 });
  if (done.error) {
    const found = (done.error as NodeJS.ErrnoException).code === 'ENOENT';
    const what = PACKAGE[program] ?? program;
    throw found ? new Error(`${program} is missing: apt-get install ${what}`) : done.error;
  }
  return { code: done.status, stdout: done.stdout, stderr: done.stderr.toString() };
}

/** Standard output of a program that must end well. */
export function output(
  program: string,
  args: readonly string[],
  input?: string | Uint8Array,
): Buffer {
  const { code, stdout, stderr } = run(program, args, input);
  if (code !== 0) throw new Error(`${program} ended with ${code}: ${stderr || stdout.toString()}`);
  return stdout;
}
