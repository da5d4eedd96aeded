import type { BoxStyle } from '../contracts.js';
import { flipLid } from './flip-lid.js';

/** All box styles, in the order in which they are listed. */
export const STYLES: readonly BoxStyle[] = [flipLid];
