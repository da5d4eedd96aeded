/**
 * Which move the marks justify. The stiffest model that explains them as well as they were measured is
 * taken; a softer one only where it explains significantly more. What no model explains, one mark left
 * out may: then that mark was mis-measured, and is named.
 */
import type { Point } from '../model.js';
import {
  fewestMarks,
  fitMove,
  MODELS,
  type Model,
  type Move,
  misses,
  type Sighting,
  squares,
  UNKNOWNS,
} from './fit.js';

export interface Alignment {
  readonly move: Move;
  /** Why this model, in words. */
  readonly why: string;
  /** What the move leaves, by mark, mm. */
  readonly residuals: readonly {
    readonly name: string;
    readonly miss: Point;
    readonly by: number;
  }[];
  readonly warnings: readonly string[];
}
/** The marks cannot be trusted, or cannot tell: what is wrong and what to do. */
export interface Refusal {
  readonly refused: string;
}

export interface AlignOptions {
  /** Standard deviation of a measured coordinate, mm. */
  readonly precision: number;
  /** The only model to be tried. */
  readonly model?: Model;
}

/** 99 % of the chi-square distribution, by degrees of freedom from 1 to 10 (NIST/SEMATECH e-Handbook
 *  of Statistical Methods, 1.3.6.7.4; from memory). */
const CHI_SQUARE_99 = [6.635, 9.21, 11.345, 13.277, 15.086, 16.812, 18.475, 20.09, 21.666, 23.209];
/** Wilson and Hilferty's approximation (1931) beyond the table; 2.326 is the normal 99 % point. */
const chiSquare99 = (freedom: number): number =>
  CHI_SQUARE_99[freedom - 1] ??
  freedom * (1 - 2 / (9 * freedom) + 2.326 * Math.sqrt(2 / (9 * freedom))) ** 3;

/** Marks whose narrow spread is below this share of their wide one lie in a line. */
const IN_LINE = 0.05;
/** A tilt looks like one misread corner. Only with so many marks can the two be told apart; with fewer
 *  a tilt, which no printer and no cutter makes, has to be asked for. */
const FEWEST_FOR_TILT = 6;
/** Numbers that must agree before a mark that does not is doubted. */
const FEWEST_AGREEING = 2;
/** A sheet that lies crooked is turned by less than this, radians: by more it lies wrong. */
const MOST_DEGREES = 30;
const MOST_TURN = (MOST_DEGREES * Math.PI) / 180;
/** Even a page printed "to fit" is no smaller, times its own size: what is, was measured in another unit. */
const SIZES = [0.8, 1.25] as const;

export function align(
  sightings: readonly Sighting[],
  { precision, model }: AlignOptions,
): Alignment | Refusal {
  if (!(precision > 0)) throw new RangeError(`a precision of ${precision} mm`);
  const most = fewestMarks(model ?? 'similarity');
  if (sightings.length < most) {
    return {
      refused: `${count(sightings.length)} measured: ${model ?? 'an alignment'} needs ${most} or more. Measure another.`,
    };
  }
  const lies = wrongWayRound(sightings) ?? inLine(sightings) ?? wrongSize(sightings);
  if (lies) return { refused: lies };
  const models = model ? [model] : modelsFor(sightings.length);
  const tries = triesOf(sightings, precision, models);
  const sound = tries.filter(t => t.freedom > 0 && t.excess <= 1);
  if (sound.length > 0) return chosen(sightings, tries, sound[0]!, precision);
  const odd = model ? undefined : oddOneOut(sightings, precision);
  if (odd) return { refused: odd };
  const exact = tries.find(t => t.freedom === 0);
  if (exact) {
    const stiffer = tries[tries.indexOf(exact) - 1];
    const because = stiffer
      ? `${a(stiffer.move.model)} move leaves ${worst(stiffer.move, sightings)} mm`
      : 'it was asked for';
    return told(exact.move, sightings, `${exact.move.model}: ${because}`, [
      `${count(sightings.length)} fix ${a(exact.move.model)} move exactly: nothing is left to check them by. Measure one more if you can.`,
    ]);
  }
  const last = tries.at(-1)!;
  return {
    refused: `No move fits the marks: ${a(last.move.model)} one still leaves ${worst(last.move, sightings)} mm, and leaving out any one mark does not help. Measure again, or say how exactly you measured (now ${precision} mm).`,
  };
}

const modelsFor = (marks: number): readonly Model[] =>
  MODELS.filter(m => m !== 'projective' || marks >= FEWEST_FOR_TILT);

interface Try {
  readonly move: Move;
  /** Numbers measured beyond those that the model needs. */
  readonly freedom: number;
  readonly squares: number;
  /** Sum of squares over what such measurements leave; above 1 is too much. */
  readonly excess: number;
}

function triesOf(
  sightings: readonly Sighting[],
  precision: number,
  models: readonly Model[],
): Try[] {
  return models.flatMap((model): Try[] => {
    const freedom = 2 * sightings.length - UNKNOWNS[model];
    if (freedom < 0) return [];
    let move: Move;
    try {
      move = fitMove(model, sightings);
    } catch (error) {
      // Softer than these marks determine.
      if (error instanceof RangeError) return [];
      throw error;
    }
    const sum = squares(move, sightings);
    const excess = freedom > 0 ? sum / (chiSquare99(freedom) * precision ** 2) : 0;
    return [{ move, freedom, squares: sum, excess }];
  });
}

/** From the stiffest that explains the marks on to softer ones that explain significantly more. */
function chosen(
  sightings: readonly Sighting[],
  tries: readonly Try[],
  first: Try,
  precision: number,
): Alignment {
  let best = first;
  for (const next of tries.slice(tries.indexOf(first) + 1)) {
    const unknowns = best.freedom - next.freedom;
    if (next.freedom > 0 && best.squares - next.squares > chiSquare99(unknowns) * precision ** 2) {
      best = next;
    }
  }
  const stiffer = tries[tries.indexOf(best) - 1];
  const { model } = best.move;
  const why = stiffer
    ? `${model}: it leaves ${worst(best.move, sightings)} mm at most, where ${a(stiffer.move.model)} move leaves ${worst(stiffer.move, sightings)} mm`
    : `${model}: it leaves ${worst(best.move, sightings)} mm at most, as little as the marks were measured to`;
  return told(best.move, sightings, why, []);
}

/** A mark without which all others agree. */
function oddOneOut(sightings: readonly Sighting[], precision: number): string | undefined {
  const found = sightings.flatMap(odd => {
    const others = sightings.filter(s => s !== odd);
    const sound = triesOf(others, precision, modelsFor(others.length)).find(
      t => t.freedom >= FEWEST_AGREEING && t.excess <= 1,
    );
    if (!sound) return [];
    const [miss] = misses(sound.move, [odd]);
    const softness = MODELS.indexOf(sound.move.model);
    return [{ odd, miss: miss!, excess: sound.excess, softness }];
  });
  const [first] = found.sort((p, q) => p.softness - q.softness || p.excess - q.excess);
  if (!first) return undefined;
  const [x, y] = first.miss;
  // A softer move explains nearly anything.
  const also = found
    .slice(1)
    .filter(f => f.softness === first.softness)
    .map(f => f.odd.name);
  const doubt = also.length > 0 ? ` (or ${also.join(' or ')})` : '';
  // The miss leads from where the others put it to where it was said to be.
  return `The mark ${first.odd.name}${doubt} was mis-measured: the others agree, and put it ${words(-x, 'right', 'left')} and ${words(-y, 'up', 'down')} of where it was said to be. Measure it again.`;
}

function wrongWayRound(sightings: readonly Sighting[]): string | undefined {
  if (sightings.length >= 3 && !inLine(sightings)) {
    const { a: p, b, c, d } = fitMove('affine', sightings);
    if (!(p * d - b * c > 0)) {
      const way = sightings.map(s => s.name).join(', ');
      return `The marks lie mirrored: the way round by ${way} turns the other way than on the sheet. It lies face down, or two marks were taken for one another. Turn it over, or name the marks again.`;
    }
  }
  const { a: cos, b: sin } = fitMove('similarity', sightings);
  const turn = Math.atan2(sin, cos);
  if (Math.abs(turn) <= MOST_TURN) return undefined;
  const degrees = Math.round((turn * 180) / Math.PI);
  const side = Math.abs(degrees) === 180 ? '' : ` to the ${turn > 0 ? 'left' : 'right'}`;
  return `The sheet lies turned by ${Math.abs(degrees)}°${side} (allowed: up to ${MOST_DEGREES}°): lay it as it was printed, the fifth mark on the lower edge, or name the marks again.`;
}

function wrongSize(sightings: readonly Sighting[]): string | undefined {
  const { a: cos, b: sin } = fitMove('similarity', sightings);
  const size = Math.hypot(cos, sin);
  const [least, most] = SIZES;
  if (size >= least && size <= most) return undefined;
  return `The marks lie ${size.toPrecision(3)} times as far apart as on the sheet (allowed: ${least} to ${most}). Are all numbers in mm, with the decimal point in its place, and each at its own mark? Measure again.`;
}

/** Three marks or more in one line tell nothing of what lies beside it. */
function inLine(sightings: readonly Sighting[]): string | undefined {
  if (sightings.length < 3) return undefined;
  const n = sightings.length;
  const [mx, my] = [0, 1].map(k => sightings.reduce((s, { at }) => s + at[k as 0 | 1], 0) / n) as [
    number,
    number,
  ];
  let [xx, xy, yy] = [0, 0, 0];
  for (const { at } of sightings) {
    xx += (at[0] - mx) ** 2;
    xy += (at[0] - mx) * (at[1] - my);
    yy += (at[1] - my) ** 2;
  }
  const half = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  // Written so that NaN counts as a line.
  if (half - apart > IN_LINE ** 2 * (half + apart)) return undefined;
  const names = sightings.map(s => s.name).join(', ');
  return `The marks ${names} lie nearly in one line, and tell nothing of the rest of the sheet. Measure one off that line.`;
}

function told(
  move: Move,
  sightings: readonly Sighting[],
  why: string,
  warnings: readonly string[],
): Alignment {
  const residuals = misses(move, sightings).map((miss, i) => ({
    name: sightings[i]!.name,
    miss,
    by: Math.hypot(miss[0], miss[1]),
  }));
  return { move, why, residuals, warnings };
}

const worst = (move: Move, sightings: readonly Sighting[]): string =>
  Math.max(...misses(move, sightings).map(m => Math.hypot(m[0], m[1]))).toFixed(2);
const a = (model: Model): string => `${model === 'affine' ? 'an' : 'a'} ${model}`;
const count = (n: number): string => `${n} ${n === 1 ? 'mark' : 'marks'}`;
const words = (by: number, more: string, less: string): string =>
  `${Math.abs(by).toFixed(2)} mm ${by < 0 ? less : more}`;
