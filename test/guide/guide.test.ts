/** The facts of a guide and their words: what is needed, what is told, what to take care of. */
import { describe, expect, it } from 'vitest';
import { boxOf, guideOf, jobOf } from '../support/guide.js';

const box = (more: string, units = 'mm') =>
  guideOf(
    jobOf(`job: fair
units: ${units}
stocks:
  card: { like: cardstock-65lb-12x12, price: 0.5 }
  red: { like: cardstock-65lb-12x12, colour: "#B5432F"${more.includes('PRICED') ? ', price: 0.75' : ''} }
  film: clear-film-a4
stock: card
boxes:
  - style: flip-lid
    name: six
    inside: 150x50x25
    count: 3
${more.replace('PRICED', '')}`),
  );

describe('what is needed', () => {
  it('counts sheets, and adds their prices up where all are known', () => {
    const heart =
      '    decorations: [{ on: lid, motif: heart, params: { size: 20 }, stock: red }]\n';
    const { guide, page } = box(`    # PRICED\n${heart}`);
    const [card, red] = guide.materials.papers;
    expect([card!.id, card!.sheets, card!.cost]).toEqual(['card', 3, 1.5]);
    expect([red!.id, red!.sheets, red!.cost]).toEqual(['red', 1, 0.75]);
    expect(guide.materials.cost).toBe(2.25);
    const items = page.needs.groups.flatMap(g => g.items);
    expect(items).toContain('Paper costs 2.25 in all');
    expect(box(heart).page.needs.groups.flatMap(g => g.items)).toContain(
      'Paper costs 1.50, not counting what has no price',
    );
  });

  it('measures glue along the flaps, and foam and glue by layer', () => {
    const { guide } = box(
      '    decorations: [{ on: lid, motif: heart, params: { size: 20 }, stock: red, lift: 2mm }]\n',
    );
    // Four tabs, each as long as its wall is high: 25 mm and what the paper takes.
    expect(guide.materials.flaps / 3).toBeGreaterThan(4 * 24);
    expect(guide.materials.flaps / 3).toBeLessThan(4 * 26.5);
    expect(guide.materials.layers).toBe(0);
    // A heart of 20 mm is less than a patch of 20 x 20 mm.
    expect(guide.materials.foam).toEqual([{ height: 2, squares: 3 }]);
  });

  it('counts closures in pairs, and warns of magnets', () => {
    const magnets = box(
      '    features: [{ closure: { on: lid, means: magnet } }]\n    params: { dots: 0 }\n',
    );
    const { closures } = magnets.guide.materials;
    expect(closures.filter(c => c.means === 'magnet').map(c => c.count)).toEqual([3]);
    expect(magnets.guide.cautions).toContain('magnets');
    // Three boxes want three pairs; whoever makes one of them sticks on one.
    expect(magnets.page.steps!.steps.at(-1)!.text).toMatch(/^Stick on 1 magnet pair, /);
    expect(magnets.page.care.items.join(' ')).toMatch(/Magnets are dangerous when swallowed/);
    expect(box('').guide.cautions).not.toContain('magnets');
  });
});

describe('the cautions', () => {
  it('tell of blades, food and local rules with every box', () => {
    const text = box('').page.care.items.join(' ');
    expect(text).toMatch(/Blades are sharp\. An adult changes them/);
    expect(text).toMatch(/not made for food\. Keep treats wrapped/);
    expect(text).toMatch(/local rules .* come first/);
  });
});

describe('a box that a ribbon holds', () => {
  const { guide, page } = guideOf(boxOf('pyramid', { length: 70, width: 70, height: 80 }));

  it('is tied in its last step, with a ribbon among what is needed', () => {
    expect(page.steps!.steps.at(-1)!.text).toBe(
      'Thread a ribbon through the holes of faces 1 to 4, and tie a bow.',
    );
    expect(page.needs.groups.flatMap(g => g.items).join()).toContain('Ribbon: about 45 cm');
    const none = guideOf(boxOf('flip-lid', { length: 70, width: 70, height: 80 })).page;
    expect(none.needs.groups.flatMap(g => g.items).join()).not.toContain('Ribbon');
  });

  it('has its holes told: how large, and how far from the fold', () => {
    const hole = guide.patterns[0]!.pattern.lettered.find(l => l.hole)!;
    const { holes, panels } = guide.patterns[0]!.pattern;
    expect(holes).toHaveLength(4);
    expect(panels).toHaveLength(5);
    // The example's own hole: 4 mm, `hole` of the style; the face is 80.8 mm high.
    expect(hole.hole).toMatchObject({ round: true });
    expect(hole.hole!.size[0]).toBeCloseTo(4, 6);
    expect(hole.hole!.fromFold).toBeGreaterThan(70);
    expect(hole.hole!.fromFold).toBeLessThan(80.8 - 4);
    expect(page.patterns!.nets[0]!.lettered.at(-1)).toMatch(
      /^c: hole, 4 mm across, its middle 7\d(\.\d)? mm from the fold$/,
    );
  });
});

describe('the steps', () => {
  it('tell what folds and what is glued to what, each with a picture', () => {
    const { page } = box('');
    const { steps } = page.steps!;
    expect(steps[0]!.text).toMatch(/^Fold up the front right tab/);
    expect(steps[1]!.text).toContain(
      'Glue the front right tab and back right tab to the inside of the right panel.',
    );
    const pictured = steps.filter(s => s.picture);
    expect(pictured.length).toBe(5);
    for (const { picture } of pictured) expect(picture!.of.parts.length).toBeGreaterThan(10);
  });

  it('begin with the film of a window', () => {
    const window =
      '    features: [{ window: { on: lid, shape: round, size: 20mm, at: [0, -12mm], film: film } }]\n';
    expect(box(window).page.steps!.steps[0]!.text).toBe(
      'Glue the film behind the window of the lid, on the inside, while all is flat.',
    );
  });

  it('of a box in parts: each part, what is glued to what, and how they go together', () => {
    const { page } = guideOf(
      jobOf('job: fair\nunits: mm\nboxes:\n  - { style: drum, inside: 70x70x40, name: drum }\n'),
    );
    const texts = page.steps!.steps.map(s => s.text);
    const curl = texts.findIndex(t => t.includes('curl round the wall') && t.startsWith('Base'));
    expect(texts[curl]).toContain('Glue the lap');
    expect(texts[curl + 1]).toMatch(/^Glue the base wall to the base, by teeth 1 to \d+\.$/);
    expect(texts.at(-1)).toBe('Put the base and the lid together.');
  });

  it('of a net that was cut up begin with its joints', () => {
    const { page } = guideOf(
      jobOf(
        'job: fair\nunits: mm\nboxes:\n  - { style: straight-tuck, inside: 100x80x150, name: tall, split: auto }\n',
      ),
    );
    expect(page.steps!.steps[0]!.text).toMatch(
      /comes in \d parts\. Glue .* under .* while all is flat/,
    );
  });
});

describe('the decorations', () => {
  it('come face by face, the lowest first, copies together', () => {
    const { guide } = box(`    decorations:
      - { on: lid, motif: scalloped-disc, params: { size: 30 }, stock: red }
      - { on: lid, motif: heart, params: { size: 10 }, repeat: { row: 3, gap: 4mm }, over: decoration }
      - { on: base, face: inside, motif: star, params: { size: 20 } }
`);
    expect(guide.decorating.map(d => [d.panel, d.face])).toEqual([
      ['lid', 'outside'],
      ['base', 'inside'],
    ]);
    const [lid] = guide.decorating;
    expect(lid!.layers.map(l => l.copies)).toEqual([1, 3]);
    expect(lid!.layers[0]!.name).toEqual({ decoration: 'lid-scalloped-disc', layer: 'front' });
  });
});

describe('lengths', () => {
  it('are told in the unit of the job', () => {
    expect(box('').page.lines[0]).toBe('150 × 50 × 25 mm inside');
    const inches = guideOf(
      jobOf(
        'job: fair\nunits: in\nboxes:\n  - { style: flip-lid, inside: 6 x 2 x 1, name: six }\n',
      ),
    );
    expect(inches.page.lines[0]).toBe('6 × 2 × 1 in inside');
  });

  it('draws the scores by which a bag is pressed flat as they fold', () => {
    const bag = 'job: fair\nunits: mm\nstock: cardstock-65lb-12x12\nboxes:\n';
    const { guide } = guideOf(jobOf(`${bag}  - { style: gusset-bag, inside: 60x30x80 }\n`));
    const { lines } = guide.patterns[0]!.pattern;
    // On either side the gusset's middle with its two diagonals, and one across the front; on the way there,
    // and in the cuffs, valleys, like every crease of the bag as it stands.
    expect(lines.filter(l => l.kind === 'mountain')).toHaveLength(5);
  });
  it('of a chain add up to the whole', () => {
    for (const { pattern } of box('').guide.patterns) {
      for (const axis of ['x', 'y'] as const) {
        const own = pattern.measures.filter(m => m.axis === axis);
        const whole = own.find(m => m.whole)!;
        for (const side of ['low', 'high'] as const) {
          const chain = own.filter(m => !m.whole && m.side === side);
          if (chain.length === 0) continue;
          const sum = chain.reduce((t, m) => t + m.to - m.from, 0);
          expect(sum).toBeCloseTo(whole.to - whole.from, 9);
        }
      }
    }
  });
});
