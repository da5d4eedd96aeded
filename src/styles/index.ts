import type { BoxStyle } from '../contracts.js';
import { flipLid } from './flip-lid.js';
import { lidAndBase } from './lid-and-base.js';
import { pillow } from './pillow.js';
import { reverseTuck } from './reverse-tuck.js';
import { straightTuck } from './straight-tuck.js';

/** All box styles, in the order in which they are listed. */
export const STYLES: readonly BoxStyle[] = [flipLid, lidAndBase, straightTuck, reverseTuck, pillow];
