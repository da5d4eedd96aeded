/** The printed patterns, in the order people meet them. */
import type { Pattern } from '../../contracts.js';
import { dots } from './dots.js';
import { stripes } from './stripes.js';

// The table's own types are narrower than `Pattern`'s; each is checked where it is defined.
export const PATTERNS: readonly Pattern[] = [dots, stripes];
