import { chromium } from 'playwright-core';
const b = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox','--disable-gpu'] });
const [,, out, ...files] = process.argv;
for (const spec of files) {
  const [file, moments, opts=''] = spec.split('@');
  const page = await b.newPage({ viewport: opts.includes('p') ? { width: 390, height: 844 } : { width: 1100, height: 800 }, colorScheme: opts.includes('d') ? 'dark':'light' });
  page.on('console', m => console.log('console', m.text())); page.on('pageerror', e => console.log('error', e.message));
  await page.goto('file://' + file);
  const steps = await page.evaluate('preview.steps');
  if (opts.includes('g')) await page.getByRole('button', { name: 'What goes inside' }).click();
  if (opts.includes('l')) { await page.getByRole('button', { name: 'Lift the layers' }).click(); await page.waitForTimeout(700); }
  if (opts.includes('f')) { await page.getByRole('button', { name: 'Flat sheets' }).click();}
  for (const m of moments.split(',')) {
    await page.evaluate(`preview.show(${m === 'end' ? steps : m})`);
    await page.waitForTimeout(120);
    const name = file.split('/').at(-1).replace('.preview.html','') + '-' + m + opts;
    if (opts.includes('c')) await page.locator('canvas').screenshot({ path: out + '/' + name + '.png' });
    else await page.screenshot({ path: out + '/' + name + '.png', fullPage: opts.includes('F') });
  }
  console.log(file, steps);
  await page.close();
}
await b.close();
