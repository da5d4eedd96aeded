/** A beam's kerf: strips parted by single lines, pushed together again and measured. */
import { line, openPath, rectangle } from '../geom/index.js';
import type { Path, Stroke } from '../model.js';
import { border, type CardAsk, defineCard, mm, words } from './card.js';

export const kerf = defineCard({
  id: 'kerf',
  summary: "a beam's kerf: strips that are pushed together again and measured",
  params: {
    strips: { kind: 'count', default: 10, least: 4, most: 30, help: 'how many' },
    strip: { kind: 'length', default: 10, least: 5, most: 20, help: 'width of each' },
    length: { kind: 'length', default: 25, least: 10, most: 60, help: 'length of each' },
  },
  build({ strips, strip, length }, ask: CardAsk) {
    const edge = border(ask);
    const whole = strips * strip;
    const low = edge + 6;
    const between = Array.from({ length: strips - 1 }, (_, k): Path => {
      const x = edge + (k + 1) * strip;
      return openPath([x, low], [line([x, low + length])]);
    });
    const strokes: Stroke[] = [
      ...words(ask, `${strips} strips of ${mm(strip)} mm`, [edge + whole / 2, edge], 2.6),
      ...Array.from({ length: strips }, (_, k) =>
        words(ask, String(k + 1), [edge + (k + 0.5) * strip, low + length / 2 - 1.3]),
      ).flat(),
    ];
    return {
      width: whole + 2 * edge,
      height: length + 2 * edge + 6,
      strokes,
      own: [
        {
          operation: 'cut',
          paths: [...between, rectangle(edge, low, whole, length)],
          blade: { offset: 0, overcut: 0 },
        },
      ],
      read: [
        'Set the kerf in your software to 0. Here the beam runs on the lines themselves, so that it takes half of its width from either side.',
        `Cut it, push the ${strips} strips together in their order along a straight edge, and measure across all of them. Without a kerf they would be ${mm(whole)} mm.`,
        `What is missing, divided by ${strips}, is the kerf: if you measure ${mm(whole - strips * 0.15)} mm it is ${mm(0.15)} mm. Write it into a cutter of your own: \`foldwright cutter new mine --like ${ask.cutter.id} --kind beam --kerf 0.15mm --compensated-by file\``,
        'A blade takes nothing away: if the strips are short and you cut with one, it is the size that is wrong (see `foldwright testcard scale`).',
        'Never leave a beam alone while it works: paper catches fire. Lead the fumes away. The maker’s notes and local rules come first.',
      ],
    };
  },
});
