/** Random sizes, papers and parameters, each case from its own seed: any one can be drawn again alone. */
import type { BoxStyle } from '../../src/contracts.js';
import type { BoxSpec, ParamValue } from '../../src/model.js';
import type { ParamSpec } from '../../src/params.js';

export interface Case {
  readonly spec: BoxSpec;
  readonly given: Readonly<Record<string, ParamValue>>;
}

/** Mulberry32 (Tommy Ettinger, public domain), from a text by FNV-1a. */
export function randomFrom(seed: string): () => number {
  let state = 0x811c9dc5;
  for (const c of seed) state = Math.imul(state ^ c.codePointAt(0)!, 0x01000193);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What nobody means. */
const NONSENSE = [Number.NaN, Number.POSITIVE_INFINITY, -1, 0, 1e9, 1e-9];
const PAPERS = [0, 0.1, 0.2, 0.25, 0.3, 0.3, 0.45, 0.6, 1, 3];

export function drawCase(style: BoxStyle, seed: string): Case {
  const random = randomFrom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const between = (least: number, most: number) => least + random() * (most - least);
  /** Every ratio as likely as any. */
  const ratio = (least: number, most: number) => least * (most / least) ** random();

  const kind = random();
  const side = (of: 'length' | 'width' | 'height'): number => {
    if (kind < 0.02 && random() < 0.4) return pick(NONSENSE);
    if (kind < 0.5) return round(style.example[of] * ratio(0.5, 2));
    if (kind < 0.9) return round(ratio(5, 400));
    return round(ratio(4, 2100));
  };
  const sides = { length: side('length'), width: side('width'), height: side('height') };
  // A round box has one measure for both; now and then it is asked for two.
  const isRound = style.plan === 'round' && random() < 0.9;
  const inside = isRound ? { ...sides, width: sides.length } : sides;
  const thickness = kind > 0.02 && kind < 0.03 ? pick(NONSENSE) : pick(PAPERS);

  const given: Record<string, ParamValue> = {};
  const share = random();
  for (const [name, spec] of Object.entries(style.params)) {
    if (random() < share) given[name] = drawn(spec);
  }
  return { spec: { inside, thickness }, given };

  function drawn(spec: ParamSpec): ParamValue {
    switch (spec.kind) {
      case 'flag':
        return random() < 0.5;
      case 'choice':
        return pick(spec.choices);
      case 'text':
        return spec.default;
      case 'count':
        return Math.floor(between(spec.least, spec.most + 1 - 1e-9));
      default: {
        const how = random();
        if (how < 0.01) return pick(NONSENSE);
        if (how < 0.1) return spec.least;
        if (how < 0.2) return spec.most;
        if (how < 0.6) return round(between(spec.least, spec.most));
        const near = typeof spec.default === 'number' && spec.default > 0 ? spec.default : 10;
        return round(Math.min(Math.max(near * ratio(0.3, 3), spec.least), spec.most));
      }
    }
  }
}

/** A tenth of a millimetre, as people measure; bounds that are finer stay. */
const round = (v: number) => Number(v.toFixed(1));
