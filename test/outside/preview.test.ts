/** The folding preview in a real browser: Debian's Chromium, its own keyboard, touch and print. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSession } from '../../src/cli/session.js';
import { proveFold } from '../../src/fold/assembly.js';
import { type PanelPose, place, pose } from '../../src/fold/pose.js';
import { distance3, type Point3, sub3 } from '../../src/fold/space.js';
import { standing } from '../../src/fold/stand.js';
import { vertices } from '../../src/geom/index.js';
import type { Net } from '../../src/model.js';
import { planItem } from '../../src/pipeline.js';
import { foldwright, root } from '../support/command.js';
import { type Browser, objections, startBrowser } from './browser.js';
import { output } from './run.js';

const JOB = `job: seen
units: mm
bleed: 3
stocks: { film: clear-film-a4, print: printable-65lb-letter }
boxes:
  - { name: caramels, style: flip-lid, treat: cider-caramel,
      decorations: [{ on: lid, motif: heart, params: { size: 18 }, lift: 1 }] }
  - { name: printed, style: flip-lid, inside: 80x50x25,
      features: [{ window: { on: front, film: film, size: 20, height: 10 } }],
      decorations: [{ on: lid, overlay: { reveal: 2 }, stock: print,
        art: { pattern: plaid, palette: cider, seed: 4 } }] }
  - { name: tin, style: lid-and-base, inside: 60x40x25 }
  - { name: carton, style: straight-tuck, inside: 50x40x70 }
  - { name: heart, style: heart-box, inside: 70x60x30 }
`;
const BOTH_SIDES = `job: both
units: mm
formats: [svg, preview]
cutter: { like: gantry, folds: { by: tool, sides: both } }
boxes: [{ name: basket, style: gable, inside: 60x40x40 }]
`;
const CLOSE_MM = 0.01;

/** What the page tells those who test it. */
declare global {
  var preview: {
    positions(): { net: string; panel: string; points: Point3[] }[];
    readonly steps: number;
    show(moment: number): void;
  };
}

const cornersOf = (poses: readonly PanelPose[]) =>
  new Map(poses.map(p => [p.panel.id, vertices(p.panel.outline).map(v => place(p, v))]));

describe('the folding preview in Chromium', () => {
  const folder = mkdtempSync(join(tmpdir(), 'foldwright-preview-'));
  const browser: Browser = startBrowser();
  const fileOf = (name: string, job = 'seen') =>
    join(folder, 'out', job, name, `${name}.preview.html`);
  const nets = new Map<string, readonly Net[]>();

  beforeAll(async () => {
    // The program as it is now, not as it was last built.
    execFileSync('npm', ['run', '-s', 'page'], { cwd: root });
    writeFileSync(join(folder, 'seen.yaml'), JOB);
    const ran = await foldwright(['batch', 'seen.yaml'], folder);
    expect(ran.code, ran.err).toBe(0);
    writeFileSync(join(folder, 'both.yaml'), BOTH_SIDES);
    expect((await foldwright(['batch', 'both.yaml'], folder)).code).toBe(0);
    const { design, kit } = openSession(
      { file: join(folder, 'seen.yaml'), text: JOB },
      {},
      { presetsDir: join(root, 'presets'), cwd: folder },
    );
    for (const item of design.items) nets.set(item.name, planItem(item, design, kit).nets);
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }, 60_000);

  /** The greatest distance between a corner in the page and the fold module's, mm. */
  async function apart(page: Page, want: ReadonlyMap<string, ReadonlyMap<string, Point3[]>>) {
    const got = await page.evaluate(() => globalThis.preview.positions());
    expect(got.length).toBe([...want.values()].reduce((n, m) => n + m.size, 0));
    const gaps = got.flatMap(({ net, panel, points }) => {
      const due = want.get(net)!.get(panel)!;
      expect(points.length).toBe(due.length);
      return points.map((p, i) => distance3(p, due[i]!));
    });
    return Math.max(...gaps);
  }

  for (const name of ['caramels', 'tin', 'carton', 'heart']) {
    it(`${name}: the slider folds it to closed, where the fold module has it`, async () => {
      const { page, said, asked } = await browser.open(fileOf(name));
      const slider = page.getByRole('slider', { name: 'Fold' });
      await slider.press('Home');
      expect(Number(await slider.inputValue())).toBe(0);
      const flat = new Map(nets.get(name)!.map(n => [n.id, cornersOf(standing(n))]));
      expect(await apart(page, flat), 'flat is not closed').toBeGreaterThan(5);
      await slider.press('End');
      const closed = new Map(nets.get(name)!.map(n => [n.id, cornersOf(standing(n))]));
      expect(await apart(page, closed)).toBeLessThan(CLOSE_MM);
      expect(await page.locator('#step').textContent()).toMatch(/^Closed, after step \d+/);
      expect(said).toEqual([]);
      expect(asked).toEqual([pathToFileURL(fileOf(name)).href]);
    });
  }

  it('is on the way where the fold module has it, step by step', async () => {
    const { page } = await browser.open(fileOf('caramels'));
    const [net] = nets.get('caramels')!;
    const { folding, steps } = proveFold(net!);
    for (const moment of [0.5, 1.3, 2.62, 3.5, steps.length - 0.25]) {
      await page.evaluate(m => globalThis.preview.show(m), moment);
      const got = await page.evaluate(() => globalThis.preview.positions());
      const due = cornersOf([...pose(net!, folding(moment / steps.length)).values()]);
      // Where it lies on the table is the page's affair: all is seen from one corner of the root.
      const o = got.find(p => p.panel === net!.root)!.points[0]!;
      const q = due.get(net!.root)![0]!;
      for (const { panel, points } of got) {
        points.forEach((p, i) => {
          expect(distance3(sub3(p, o), sub3(due.get(panel)![i]!, q)), panel).toBeLessThan(CLOSE_MM);
        });
      }
    }
  });

  /** The canvas as it is once the next frames are painted. */
  const picture = (page: Page): Promise<string> =>
    page.evaluate(`new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() =>
      done(document.querySelector('canvas').toDataURL()))))`);

  it('is worked by keyboard: fold by step, turn, go nearer, lift, look inside, play', async () => {
    const { page, said } = await browser.open(fileOf('caramels'));
    const slider = page.getByRole('slider', { name: 'Fold' });
    await slider.press('Home');
    await slider.press('PageUp');
    await slider.press('PageUp');
    expect(Number(await slider.inputValue())).toBe(2);
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^Step 2 of \d+: /);
    await slider.press('ArrowLeft');
    expect(Number(await slider.inputValue())).toBeCloseTo(1.9, 6);
    const canvas = page.locator('canvas');
    const seen = [await picture(page)];
    for (const key of ['ArrowLeft', 'ArrowUp', '+']) {
      await canvas.press(key);
      seen.push(await picture(page));
    }
    await page.getByRole('button', { name: 'Lift the layers' }).press('Enter');
    await page.waitForTimeout(700);
    seen.push(await picture(page));
    await page.getByRole('button', { name: 'What goes inside' }).press('Space');
    seen.push(await picture(page));
    expect(new Set(seen).size).toBe(seen.length);
    await page.getByRole('button', { name: 'Reset the view' }).press('Enter');
    await slider.press('Home');
    await page.getByRole('button', { name: 'Play' }).press('Enter');
    await page.waitForTimeout(400);
    await page.getByRole('button', { name: 'Pause' }).press('Enter');
    const at = Number(await slider.inputValue());
    expect(at).toBeGreaterThan(0);
    await page.waitForTimeout(100);
    expect(Number(await slider.inputValue())).toBe(at);
    await page.getByRole('button', { name: 'Flat sheets' }).press('Enter');
    const piece = page.locator('g.piece').first();
    await piece.focus();
    const [net] = nets.get('caramels')!;
    expect(await page.locator('.piece-told').textContent()).toContain(net!.title);
    expect(await page.locator('.piece-told').textContent()).toMatch(/[\d.]+ × [\d.]+ mm/);
    await page.getByLabel('score').press('Space');
    expect(await page.locator('.op-score').first().isVisible()).toBe(false);
    expect(said).toEqual([]);
  });

  it('goes from piece to piece by arrow keys: one stop of the Tab key a sheet', async () => {
    const { page } = await browser.open(fileOf('tin'));
    await page.getByRole('button', { name: 'Flat sheets' }).click();
    expect(await page.locator('g.piece[tabindex="0"]').count()).toBe(
      await page.locator('figure').count(),
    );
    await page.locator('g.piece').first().focus();
    const told = () => page.locator('.piece-told').textContent();
    const first = await told();
    await page.keyboard.press('ArrowRight');
    const second = await told();
    expect(new Set([first, second]).size).toBe(2);
    expect(await page.evaluate('document.activeElement.tabIndex')).toBe(0);
    await page.keyboard.press('ArrowLeft');
    expect(await told()).toBe(first);
  });

  it('is told in order to who does not see it: headings, the step in words, each sheet', async () => {
    const { page } = await browser.open(fileOf('caramels'));
    const heads = () =>
      page.getByRole('heading').evaluateAll(all => all.map(h => `${h.tagName} ${h.textContent}`));
    expect(await heads()).toEqual(['H1 Caramels', 'H2 Folded box', 'H2 In this order']);
    expect(await page.locator('body').ariaSnapshot()).toContain('img "Caramels in the round"');
    const box = page.getByRole('img', { name: 'Caramels in the round' });
    expect(await box.getAttribute('aria-describedby')).toBe('seen hands');
    expect(await page.locator('#seen').textContent()).toBe(
      'Lid, on the outside: Lid heart, front.',
    );
    // What the slider says is not said a second time.
    const live = () => page.locator('#step').getAttribute('aria-live');
    const slider = page.getByRole('slider', { name: 'Fold' });
    await slider.press('PageDown');
    expect(await slider.getAttribute('aria-valuetext')).toBe(
      await page.locator('#step').textContent(),
    );
    expect(await live()).toBe('off');
    await page.getByRole('button', { name: 'One step back' }).press('Enter');
    expect(await live()).toBe('polite');
    await page.getByRole('button', { name: 'Flat sheets' }).click();
    expect(await heads()).toEqual(['H1 Caramels', 'H2 Flat sheets']);
    const sheet = page.getByRole('group', { name: /cardstock|film/i }).first();
    const holds = await sheet.getAttribute('aria-describedby');
    expect(await page.locator(`[id="${holds}"]`).textContent()).toBe(
      '1 × Flip-lid box; 1 × Lid heart, front',
    );
    expect(await sheet.getByRole('img').first().locator('title').textContent()).toMatch(
      /^Flip-lid box, [\d.]+ × [\d.]+ mm$/,
    );
  });

  it('shows the back of a sheet as it lies for the machine, before its face', async () => {
    const { page } = await browser.open(fileOf('basket', 'both'));
    await page.getByRole('button', { name: 'Flat sheets' }).click();
    const captions = await page.locator('figcaption span[id^=sheet]').allTextContents();
    expect(captions.map(c => /its (back|face)/.exec(c)?.[1])).toEqual(['back', 'face']);
    const [back, face] = [page.locator('figure').first(), page.locator('figure').last()];
    expect(await back.locator('.op-cut').count()).toBe(0);
    expect(await back.locator('.op-score').count()).toBe(1);
    // Mirrored: the area of the piece's frame has the other sign.
    const area = ([a, b, c, d]: number[]) => Math.sign(a! * d! - b! * c!);
    const [turned, straight] =
      (await page.evaluate(`[...document.querySelectorAll('figure')].map(f =>
      f.querySelector('.piece').getAttribute('transform').slice(7, -1).split(' ').map(Number))`)) as [
        number[],
        number[],
      ];
    expect([area(turned), area(straight)]).toEqual([-1, 1]);
    expect(await face.locator('.op-cut').count()).toBe(1);
    expect(await page.getByText('Where a sheet has a back, do it first.').isVisible()).toBe(true);
  });

  it('is worked by touch: a finger turns it, two go nearer, a tap folds', async () => {
    const { page } = await browser.open(fileOf('caramels'), {
      hasTouch: true,
      isMobile: true,
      viewport: { width: 390, height: 844 },
    });
    const box = (await page.locator('canvas').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const devtools = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: [number, number][]) =>
      devtools.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: at.map(([px, py], id) => ({ x: px, y: py, id })),
      });
    const before = await picture(page);
    await touch('touchStart', [x, y]);
    await touch('touchMove', [x + 60, y - 25]);
    await touch('touchEnd');
    const turned = await picture(page);
    expect(turned).not.toBe(before);
    await touch('touchStart', [x - 20, y], [x + 20, y]);
    await touch('touchMove', [x - 70, y], [x + 70, y]);
    await touch('touchEnd');
    expect(await picture(page)).not.toBe(turned);
    const slider = page.getByRole('slider', { name: 'Fold' });
    await slider.tap();
    const steps = await page.evaluate(() => globalThis.preview.steps);
    expect(Number(await slider.inputValue())).toBeCloseTo(steps / 2, 0);
    // Nothing is wider than the phone.
    expect(Number(await page.evaluate('document.documentElement.scrollWidth'))).toBeLessThanOrEqual(
      390,
    );
  });

  it('has nothing that axe-core objects to, in either theme and view', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page } = await browser.open(fileOf('tin'), { colorScheme });
      for (const view of ['Folded', 'Flat sheets']) {
        await page.getByRole('button', { name: view, exact: true }).click();
        expect(await objections(page), `${colorScheme}, ${view}`).toEqual([]);
      }
    }
  });

  it('prints on few pages: title, picture, every step, the sheets', async () => {
    const { page } = await browser.open(fileOf('tin'), { colorScheme: 'dark' });
    const pdf = join(folder, 'tin.pdf');
    await page.pdf({ path: pdf, format: 'A4', printBackground: true });
    expect(output('pdfinfo', [pdf]).toString()).toMatch(/Pages:\s+[123]\n/);
    // White paper, whatever the screen looked like: the first pixels of the first page.
    const grey = output('pdftoppm', ['-gray', '-r', '20', '-f', '1', '-l', '1', pdf]);
    const paper = [...grey.subarray(-grey.length + 20, -grey.length + 60)];
    expect(Math.min(...paper)).toBe(255);
    const text = output('pdftotext', ['-layout', pdf, '-']).toString();
    expect(text).toContain('Tin');
    expect(text).toContain('In this order');
    expect(text.replaceAll(/\s+/g, ' ')).toContain('Put the lid on.');
    expect(text).not.toContain('Play');
    // No page is empty, the sheets begin on one of their own, and their lines are explained.
    const pages = text.replace(/\f$/, '').split('\f');
    for (const p of pages) expect(p.trim()).not.toBe('');
    expect(pages[0]).not.toContain('Flat sheets');
    expect(pages[1]).toMatch(/^\s*Flat sheets\s+score\s+cut\s/);
    expect(text).not.toContain('Show');
    expect(
      output('pdfimages', ['-list', pdf]).toString().trim().split('\n').length,
    ).toBeGreaterThan(2);
  });

  it('shows sheets as they are printed: past the cut by the bleed', async () => {
    const { page, said } = await browser.open(fileOf('printed'));
    await page.getByRole('button', { name: 'Flat sheets' }).click();
    // The print's own box and its piece's, in mm of the sheet.
    const reach = await page.evaluate(`(() => {
      const sheet = document.querySelector('svg.printed');
      const use = sheet.querySelector('.op-art use').getBBox();
      const face = sheet.querySelector('.piece .face').getBBox();
      return [face.x - use.x, face.y - use.y, use.width - face.width, use.height - face.height];
    })()`);
    for (const [i, got] of (reach as number[]).entries()) {
      expect(got).toBeGreaterThan((i < 2 ? 3 : 6) - 0.05);
    }
    await page.getByLabel('printed art').click();
    expect(await page.locator('.op-art').first().isVisible()).toBe(false);
    expect(said).toEqual([]);
  });

  it('is small', () => {
    for (const name of nets.keys()) expect(statSync(fileOf(name)).size).toBeLessThan(400_000);
  });
});
