/** The writers, in the order in which they are listed. */
import type { CutWriter } from '../contracts.js';
import { dxf } from './dxf.js';
import { svg } from './svg.js';

export const CUT_WRITERS: readonly CutWriter[] = [svg, dxf];
