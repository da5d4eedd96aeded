import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

describe('the two large libraries', () => {
  const room = new URL('../../src/geom/', import.meta.url);
  const files = readdirSync(room).filter(f => f.endsWith('.ts'));
  /** Imports that load something when the file is loaded. */
  const loads = (text: string) =>
    [...text.matchAll(/^(?:import|export) (?!type )[^;]*?from '([^'.][^']*)'/gm)].map(m => m[1]!);

  it('the pattern sees an import that loads, and not one of types', () => {
    expect(loads("import { a } from 'paper';\nimport type { B } from 'clipper2-ts';")).toEqual([
      'paper',
    ]);
  });
  /** Small enough to be loaded by everybody: the spatial index, 2 ms (measured). */
  const light = ['flatbush'];

  it('are not loaded by importing vectors: no file of the room imports a large package but for its types', () => {
    expect(files.length).toBeGreaterThan(20);
    for (const file of files) {
      const found = loads(readFileSync(new URL(file, room), 'utf8'));
      expect(found.filter(name => !name.startsWith('node:') && !light.includes(name))).toEqual([]);
    }
  });
});
