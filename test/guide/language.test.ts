/** Another language is one file: with a catalogue in capitals nothing of ours is left in small letters. */
import { describe, expect, it } from 'vitest';
import { pageProgram } from '../../src/cli/page-files.js';
import { openSession } from '../../src/cli/session.js';
import { proveNet } from '../../src/fold/index.js';
import { guidePage } from '../../src/guide/index.js';
import { itemGuide } from '../../src/item-guide.js';
import { itemPreview } from '../../src/item-preview.js';
import { planItem } from '../../src/pipeline.js';
import { STYLES } from '../../src/styles/index.js';
import { previewPage } from '../../src/write/index.js';
import { root } from '../support/command.js';
import { boxOf, htmlOf, jobOf, pdfOf, textsOf } from '../support/guide.js';
import { quietWords, SHOUTING, saidIn } from '../support/shouting.js';

const PRESETS = { presetsDir: `${root}presets`, cwd: root };
type Asked = Parameters<typeof openSession>[0];

function pagesOf(source: Asked) {
  const session = openSession(source, {}, PRESETS);
  const { design, kit } = session;
  // Names and titles are the person's.
  const loud = {
    ...design,
    title: 'FAIR',
    items: design.items.map(i => ({ ...i, title: 'PEAR' })),
  };
  const plan = planItem(loud.items[0]!, loud, kit);
  const known = [...Object.values(loud.stocks).map(s => s.id), plan.item.name];
  const guide = guidePage(itemGuide(plan, loud, kit), SHOUTING);
  const preview = () => itemPreview(plan, loud, plan.nets.map(proveNet), SHOUTING);
  return { session, plan, known, guide, preview };
}

describe.each(STYLES.map(s => [s.id, s] as const))('in another language, %s', (id, { example }) => {
  const { guide, preview, known } = pagesOf(boxOf(id, example));

  it('has a guide without a word of English', async () => {
    expect(quietWords(saidIn(htmlOf(guide)), known)).toEqual([]);
    const { bytes } = await pdfOf(guide);
    // A line ends anywhere in the id of a paper.
    const parts = known.flatMap(k => k.split(/[\s-]+/));
    const text = (await textsOf(bytes)).map(t => t.text).join(' ');
    expect(quietWords(text, [...known, ...parts])).toEqual([]);
    expect(text).toContain('TAKE CARE');
  });

  it('has a preview without one', () => {
    const facts = preview();
    expect(quietWords(saidIn(previewPage(facts, pageProgram('preview'))), known)).toEqual([]);
    const { lang: _, ...words } = facts.words;
    const said = [
      ...facts.told,
      ...facts.nets.flatMap(n => n.told),
      ...Object.values(facts.placing),
      ...facts.pieces.flatMap(p => [p.title, p.size]),
      ...facts.sheets.flatMap(s => [s.title, s.holds]),
      facts.decorated,
      facts.treat?.told ?? '',
      ...Object.values(words).map(w => w.replace(/\{\w+\}/g, '')),
    ];
    expect(said.flatMap(s => quietWords(s, known))).toEqual([]);
    expect(facts.words.play).toBe('PLAY');
  });
});

const DRESSED = `job: fair
units: in
stocks:
  film: clear-film-a4
boxes:
  - style: flip-lid
    name: six
    title: PEAR
    treat: cider-caramel
    features:
      - window: { on: base, shape: round, size: 10mm, film: film }
      - closure: { on: lid-under, means: magnet }
    decorations:
      - { on: lid, motif: apple, lift: 2mm, shadow: { by: [1mm, -1mm] }, backings: [{ reveal: 2mm }] }
      - { on: left, motif: label, params: { text: "{to}" }, to: [ANNA, BO] }
`;

describe('in another language, what is put on and in a box', () => {
  it('is told without a word of English', async () => {
    const { guide, preview, known, plan } = pagesOf(jobOf(DRESSED));
    expect(plan.decals.length).toBeGreaterThan(4);
    expect(quietWords(saidIn(htmlOf(guide)), known)).toEqual([]);
    const facts = preview();
    const said = [...facts.pieces.map(p => p.title), facts.treat!.told, facts.decorated];
    expect(facts.decorated.length).toBeGreaterThan(40);
    expect(said.flatMap(s => quietWords(s, known))).toEqual([]);
    expect(said.join()).toContain('APPLE, FRONT');
  });
});
