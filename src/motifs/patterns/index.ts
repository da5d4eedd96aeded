/** The printed patterns, in the order people meet them. */
import type { Pattern } from '../../contracts.js';
import { dots } from './dots.js';
import { floral } from './floral.js';
import { ombre } from './ombre.js';
import { fishScale } from './scales.js';
import { scatter } from './scatter.js';
import { cells, terrazzo } from './stones.js';
import { stripes } from './stripes.js';
import { herringbone, honeycomb, triangles } from './tiles.js';
import { chevron, ripple } from './waves.js';
import { woodgrain } from './woodgrain.js';
import { gingham, plaid } from './woven.js';

// The table's own types are narrower than `Pattern`'s; each is checked where it is defined.
export const PATTERNS: readonly Pattern[] = [
  ...[dots, stripes, gingham, plaid, chevron],
  ...[honeycomb, triangles, herringbone, fishScale],
  ...[terrazzo, cells, woodgrain, ripple],
  ...[scatter, floral, ombre],
];
