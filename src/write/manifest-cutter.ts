/** The cutter that a run was for, as its manifest tells it. */
import { type Cutter, OPERATIONS, type Operation } from '../model.js';
import { type Check, number, object, text } from './checked-json.js';
import { rounded } from './number.js';

export interface ManifestCutter {
  readonly id: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** What its tools cannot reach. */
  readonly marginMm: number;
  /** Millimetres a second, that the estimates of time come from. */
  readonly speed: Readonly<Record<Operation | 'travel', number>>;
}

export const cutterEntry = ({ id, width, height, margin, speed }: Cutter): ManifestCutter => ({
  id,
  widthMm: rounded(width, 3),
  heightMm: rounded(height, 3),
  marginMm: rounded(margin, 3),
  speed,
});

/** Slower than this is no machine; 0 would make the estimate endless. */
const LEAST_SPEED = 0.01;
const SPEEDS = [...OPERATIONS, 'travel'] as const;
const speeds = object(Object.fromEntries(SPEEDS.map(s => [s, number(LEAST_SPEED)])));
const known = object({
  id: text(),
  widthMm: number(0),
  heightMm: number(0),
  marginMm: number(0),
  speed: (value, where) => speeds(value, where) as ManifestCutter['speed'],
});

/** `null` in manifests of before cutters were told. */
export const CHECK_CUTTER: Check<ManifestCutter | null> = (value, where) =>
  value === null ? null : known(value, where);
