import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT } from './cruise.js';

const run = readFileSync(join(ROOT, '.ci/run'), 'utf8');

/** The README's test command, as `.ci/run` finds it: by the same awk program. */
function testCommand(readme: string): string {
  const program = /tests=\$\(awk '([^']+)' README\.md\)/.exec(run)?.[1];
  return execFileSync('awk', [program!], { input: readme, encoding: 'utf8' }).trim();
}

describe('.ci/run', () => {
  it('may be executed, and is a script that bash can read', () => {
    expect(statSync(join(ROOT, '.ci/run')).mode & 0o111).toBe(0o111);
    execFileSync('bash', ['-n', join(ROOT, '.ci/run')]);
  });
  it('stops at the first fault', () => {
    expect(run).toMatch(/^set -euo pipefail$/m);
  });
  it('finds the test command of the README, and only that', () => {
    const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
    expect(testCommand(readme)).toBe('npm ci && npm test');
    const other = 'Run it:\n```sh\nrm x\n```\nRun the tests:\n\n```sh\na\nb\n```\n```sh\nc\n```\n';
    expect(testCommand(other)).toBe('a\nb');
    expect(testCommand('no such line\n```sh\na\n```\n')).toBe('');
  });
  it('calls scripts that there are', () => {
    const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
    const called = /for check in ([^;]+);/.exec(run)?.[1]?.split(' ');
    expect(called).toEqual(['lint', 'types', 'order', 'unused', 'test:outside']);
    for (const name of called!) expect(scripts).toHaveProperty(name);
  });
});
