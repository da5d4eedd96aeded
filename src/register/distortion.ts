/** What a move means for a printed sheet, in words that a person can check with a ruler. */
import type { Point } from '../model.js';
import { type Move, moved } from './fit.js';

export interface Distortion {
  /** Size of what was found over what was drawn, along the sheet's x and y. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Turned to the left, degrees. */
  readonly turnDeg: number;
  /** How far y leans off square to x, to the right, degrees. */
  readonly skewDeg: number;
  /** Of the point asked about, mm. */
  readonly shift: Point;
}

/** About one point of the sheet; a projective move differs from place to place. */
export function distortionAt(move: Move, at: Point): Distortion {
  const { a, b, c, d, g, h } = move;
  const [u, v] = moved(move, at);
  const w = g * at[0] + h * at[1] + 1;
  // Slopes of the move at the point.
  const [ux, vx, uy, vy] = [(a - g * u) / w, (b - g * v) / w, (c - h * u) / w, (d - h * v) / w];
  const scaleX = Math.hypot(ux, vx);
  const along = Math.atan2(vx, ux);
  const up = Math.atan2(vy, uy);
  return {
    scaleX,
    scaleY: (ux * vy - uy * vx) / scaleX,
    turnDeg: degrees(along),
    skewDeg: degrees(Math.PI / 2 - (up - along)),
    shift: [u - at[0], v - at[1]],
  };
}

const degrees = (radians: number) => (radians * 180) / Math.PI;

/** Below what a ruler and an eye can tell. */
const SAME_SIZE = 0.0002;
const STRAIGHT_DEG = 0.02;

export function distortionWords({ scaleX, scaleY, turnDeg, skewDeg, shift }: Distortion): string {
  const size = (scale: number) =>
    `${(Math.abs(scale - 1) * 100).toFixed(2)} % ${scale < 1 ? 'small' : 'large'}`;
  const parts: string[] = [];
  if (Math.abs(scaleX - scaleY) < SAME_SIZE) {
    const scale = (scaleX + scaleY) / 2;
    parts.push(Math.abs(scale - 1) < SAME_SIZE ? 'true to size' : `${size(scale)}`);
  } else parts.push(`${size(scaleX)} across, ${size(scaleY)} up and down`);
  if (Math.abs(turnDeg) >= STRAIGHT_DEG) {
    parts.push(`turned ${Math.abs(turnDeg).toFixed(2)}° to the ${turnDeg > 0 ? 'left' : 'right'}`);
  }
  if (Math.abs(skewDeg) >= STRAIGHT_DEG) {
    parts.push(`leaning ${Math.abs(skewDeg).toFixed(2)}° to the ${skewDeg > 0 ? 'right' : 'left'}`);
  }
  const [x, y] = shift;
  parts.push(
    `its middle ${Math.abs(x).toFixed(2)} mm ${x < 0 ? 'left' : 'right'} and ${Math.abs(y).toFixed(2)} mm ${y < 0 ? 'down' : 'up'}`,
  );
  return parts.join('; ');
}
