/** The README's commands, run as they stand there. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesBelow, foldwright, inFolder, root } from '../support/command.js';

const readme = readFileSync(join(root, 'README.md'), 'utf8');
const commands = [...readme.matchAll(/^```sh\n([\s\S]*?)^```/gm)]
  .flatMap(m => m[1]!.split('\n'))
  .map(line => line.trim())
  .filter(line => line !== '');

/** A shell's words, `>` and a file's name; `**` as a shell without extensions takes it. */
function words(command: string): string[] {
  return [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(m => m[1] ?? m[2] ?? m[3]!);
}

async function runLine(line: string, folder: string): Promise<void> {
  const [, , ...argv] = words(line);
  const into = argv.indexOf('>');
  const given = into < 0 ? argv : argv.slice(0, into);
  const spread = given.flatMap(word => {
    if (!word.includes('*')) return [word];
    const pattern = new RegExp(`^${word.replace(/\./g, '\\.').replace(/\*+/g, '[^/]*')}$`);
    const found = [...filesBelow(folder).keys()].filter(name => pattern.test(name));
    expect(found.length, `${word} matches nothing`).toBeGreaterThan(0);
    return found;
  });
  const ran = await foldwright(spread, folder);
  expect(ran.code, `${line}\n${ran.err}\n${ran.out.slice(-2000)}`).toBe(0);
  if (into >= 0) writeFileSync(join(folder, argv[into + 1]!), ran.out);
}

describe('the README', () => {
  it('has the two commands that do all of their own set-up', () => {
    expect(commands).toContain('npm ci && npm run demo');
    expect(commands).toContain('npm ci && npm test');
  });

  it('names only npm scripts that exist', () => {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    const named = [...readme.matchAll(/npm run ([\w:-]+)/g)].map(m => m[1]!);
    for (const name of named) expect(scripts, name).toHaveProperty(name);
  });

  it('links to files that exist', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(m => m[1]!);
    expect(links.length).toBeGreaterThan(0);
    for (const link of links) expect(existsSync(join(root, link)), link).toBe(true);
  });

  it(
    'shows foldwright commands that run, from the first to the last',
    () =>
      inFolder(async folder => {
        const ours = commands.filter(c => c.startsWith('npx foldwright '));
        expect(ours.length).toBeGreaterThan(5);
        // What `npm run demo` does, which the later commands look at.
        const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
        expect(scripts.demo).toBe('node dist/main.js batch orchard-fair');
        await runLine('npx foldwright batch orchard-fair', folder);
        for (const line of ours) await runLine(line, folder);
      }),
    180_000,
  );

  it('would notice a command that fails', () =>
    inFolder(async folder => {
      const wrong = runLine('npx foldwright list stylez', folder);
      await expect(wrong).rejects.toThrow('stylez');
    }));
});
