/** What to tell a person whose piece does not fit: by how much, and what would. */
import { bounds } from '../geom/index.js';
import type { Bounds, Piece, Stock } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { footprintArea, pieceBox, reservedZones, type SheetOptions } from './footprint.js';
import { freeSpace } from './free-space.js';

/** Widths before heights, mm. `have` is the room for an outline on an empty sheet, after margins,
 *  bleed and marks; `need` is the piece as drawn. */
export interface TooBig {
  readonly need: readonly [width: number, height: number];
  readonly have: readonly [width: number, height: number];
  /** How much too wide and too high, 0 where it fits, for the better of the ways it may lie. */
  readonly over: readonly [width: number, height: number];
  /** `need` lies turned by a quarter in the comparison above. */
  readonly turned: boolean;
  /** It would fit the other way round, but then the grain runs the wrong way. */
  readonly fitsAcrossGrain: boolean;
  /** The largest scale at which it fits; 0 when the sheet leaves no room at all. */
  readonly scale: number;
}

/** `undefined` when the piece fits an empty sheet. */
export function tooBig(piece: Piece, stock: Stock, options: SheetOptions): TooBig | undefined {
  const zones = reservedZones(stock, options);
  const spaces = zones ? freeSpace(footprintArea(stock, options), zones) : [];
  const shape = pieceBox(piece, stock, options);
  const b = bounds(piece.outline);
  const need = [b.maxX - b.minX, b.maxY - b.minY] as const;
  const around = [shape.width - need[0], shape.height - need[1]] as const;
  const compare = (space: Bounds, turned: boolean): TooBig => {
    const [i, j] = turned ? ([1, 0] as const) : ([0, 1] as const);
    const have = [
      Math.max(0, space.maxX - space.minX - around[i]),
      Math.max(0, space.maxY - space.minY - around[j]),
    ] as const;
    const over = [excess(need[i], have[0]), excess(need[j], have[1])] as const;
    const scale = Math.min(have[0] / need[i], have[1] / need[j]);
    return { need, have, over, turned, fitsAcrossGrain: false, scale };
  };
  const ways = (turned: boolean) => spaces.map(space => compare(space, turned));
  const allowed = [...(shape.straight ? ways(false) : []), ...(shape.turned ? ways(true) : [])];
  const best = allowed.reduce<TooBig | undefined>(
    (a, c) => (a && a.scale >= c.scale ? a : c),
    undefined,
  );
  if (!best) {
    return { need, have: [0, 0], over: need, turned: false, fitsAcrossGrain: false, scale: 0 };
  }
  if (best.over[0] === 0 && best.over[1] === 0) return undefined;
  const barred = shape.straight && shape.turned ? [] : ways(shape.straight);
  return { ...best, fitsAcrossGrain: barred.some(w => w.over[0] === 0 && w.over[1] === 0) };
}

const excess = (need: number, have: number) => (need <= have + SAME_POINT_MM ? 0 : need - have);

const mm = (n: number) => `${Number(n.toFixed(1))} mm`;

/** One sentence of what is wrong and one of what to do. */
export function tooBigMessage(
  piece: Piece,
  stock: Stock,
  options: SheetOptions,
  t: TooBig,
): string {
  const what = `"${piece.title}" is ${mm(t.need[0])} wide and ${mm(t.need[1])} high`;
  const sheet = `a sheet of ${stock.id} in the cutter ${options.cutter.id}`;
  if (t.have[0] === 0 || t.have[1] === 0) {
    return `${what}; ${sheet} has no room for it. Choose a larger stock or cutter.`;
  }
  const room = `${sheet} has room for ${mm(t.have[0])} by ${mm(t.have[1])}`;
  const excesses = [
    t.over[0] > 0 ? `${mm(t.over[0])} too wide` : '',
    t.over[1] > 0 ? `${mm(t.over[1])} too high` : '',
  ].filter(Boolean);
  const way = t.turned ? ', even turned by a quarter,' : '';
  const grain = t.fitsAcrossGrain
    ? ' It fits turned by a quarter, but then the grain runs across its creases.'
    : '';
  const percent = Math.floor(t.scale * 1000) / 10;
  return (
    `${what}; ${room}:${way} it is ${excesses.join(' and ')}.${grain}` +
    ` At ${percent} % of its size it would fit; or choose a larger stock and cutter.`
  );
}
