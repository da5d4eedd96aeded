/** The answer of `fit` for other programs: millimetres, every piece in its place. */
import type { FitAnswer, FittedBox } from '../job/index.js';
import type { Arrangement } from '../model.js';

/** `boxes` as they are listed, `shown` of them; `into` in place of them for `--inside`. */
export function fitJson(answer: FitAnswer, shown: number): object {
  const { treat, stock, cutter, boxes, refused, into } = answer;
  return {
    treat,
    stock: stock.id,
    cutter: cutter.id,
    ...(into
      ? {
          into: {
            inside: into.inside,
            count: into.fullest.count,
            ...(into.fullest.arrangement && { arrangement: placed(into.fullest.arrangement) }),
          },
        }
      : { boxes: boxes.slice(0, shown).map(boxJson), refused }),
  };
}

const boxJson = ({ box, insert }: FittedBox, i: number): object => ({
  rank: i + 1,
  style: box.style.id,
  inside: box.inside,
  arrangement: placed(box.arrangement()),
  perSheet: box.yield.perSheet,
  sheets: box.yield.sheets ?? null,
  blanks: box.blanks,
  paperMm2: box.paper,
  ...(insert && { insert }),
});

/** Without the treat, which stands once above. */
const placed = ({ treat: _, ...rest }: Arrangement): object => rest;
