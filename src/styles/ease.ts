import { auto } from './bounds.js';

/** The room that one part needs on each side to slide in another and still hold (common practice,
 *  no source). */
const LEAST = 0.25;
const MOST = 0.5;

/** One paper thickness within these, if not said; the ideal net has no paper to make room for. */
export const slideEase = (given: number | 'auto', t: number): number =>
  auto(given, t > 0 ? Math.min(Math.max(t, LEAST), MOST) : 0);
