import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { foldwright, inFolder } from '../support/command.js';

it('box --net writes the nets of the box, with --check and nothing else', () =>
  inFolder(async folder => {
    const argv = ['box', 'lid-and-base', '--inside', '90x70x35mm', '--check', '--net', 'net.json'];
    const ran = await foldwright(argv, folder);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const { format, style, nets } = JSON.parse(readFileSync(join(folder, 'net.json'), 'utf8'));
    expect([format, style]).toEqual(['foldwright net 1', 'lid-and-base']);
    expect(nets.map((n: { id: string }) => n.id)).toEqual(['base', 'lid']);
    expect(nets[0].steps.length).toBeGreaterThan(0);
    expect(existsSync(join(folder, 'out'))).toBe(false);
  }));

it('box --net tells a file that cannot be written', () =>
  inFolder(async folder => {
    const argv = ['box', 'flip-lid', '--inside', '6x2x1in', '--check', '--net', 'no/such/net.json'];
    const ran = await foldwright(argv, folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('--net no/such/net.json: cannot be written');
  }));
