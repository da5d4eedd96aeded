import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectGolden } from './golden.js';

describe('expectGolden', () => {
  let root = '';
  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'golden-'));
  });
  afterEach(() => rmSync(root, { recursive: true }));
  const at = (env: Record<string, string>) => ({ root, env });
  const path = 'a/box.svg';
  const changed = () => join(root, 'a/box-changed.svg');

  it('fails where there is no golden, and keeps what was made for a look', () => {
    expect(() => expectGolden(path, 'one', at({}))).toThrow('there is no golden yet');
    expect(readFileSync(changed(), 'utf8')).toBe('one');
    expect(existsSync(join(root, path))).toBe(false);
  });
  it('fails on a change and names the line, and passes once it is blessed', () => {
    expectGolden(path, 'one\ntwo', at({ BLESS: '1' }));
    expect(() => expectGolden(path, 'one\nthree', at({}))).toThrow('line 2 was two and is three');
    expect(() => expectGolden(path, 'one', at({}))).toThrow('line 2 was two and is nothing');
    expect(readFileSync(changed(), 'utf8')).toBe('one');
    expectGolden(path, 'one\ntwo', at({}));
    expect(existsSync(changed())).toBe(false);
  });
  it('writes nothing on a build machine, blessed or not', () => {
    const ci = at({ CI: 'true', BLESS: '1' });
    expect(() => expectGolden(path, 'one', ci)).toThrow('no golden');
    expectGolden(path, 'one', at({ BLESS: '1' }));
    expect(() => expectGolden(path, 'two', ci)).toThrow('line 1');
    expect(readFileSync(join(root, path), 'utf8')).toBe('one');
    expect(existsSync(changed())).toBe(false);
  });
});
