/** Debian's Chromium, driven through playwright-core: without a graphics card and without a network. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Opened {
  readonly page: Page;
  /** What the console and uncaught errors said. */
  readonly said: string[];
  /** Addresses that were asked for. */
  readonly asked: string[];
}

export interface Browser {
  open(file: string, how?: Parameters<typeof chromium.launchPersistentContext>[1]): Promise<Opened>;
  close(): Promise<void>;
}

/** Each page opens in a browser with a folder of its own, which is gone afterwards. */
export function startBrowser(): Browser {
  const contexts: BrowserContext[] = [];
  const folders: string[] = [];
  return {
    async open(file, how = {}) {
      const folder = mkdtempSync(join(tmpdir(), 'foldwright-browser-'));
      folders.push(folder);
      const context = await chromium.launchPersistentContext(folder, {
        executablePath: '/usr/bin/chromium',
        args: FLAGS,
        viewport: { width: 1280, height: 860 },
        ...how,
      });
      contexts.push(context);
      const page = context.pages()[0] ?? (await context.newPage());
      const said: string[] = [];
      const asked: string[] = [];
      page.on('console', m => said.push(`${m.type()}: ${m.text()}`));
      page.on('pageerror', e => said.push(`error: ${e.message}`));
      page.on('request', r => asked.push(r.url()));
      await page.goto(pathToFileURL(file).href);
      return { page, said, asked };
    },
    async close() {
      for (const c of contexts) await c.close();
      for (const f of folders) rmSync(f, { recursive: true, force: true });
    },
  };
}

/** What axe-core objects to, each fault with the first place of it. */
export async function objections(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate("axe.run().then(r => r.violations.map(v => v.id + ': ' + v.nodes[0].html))");
}
