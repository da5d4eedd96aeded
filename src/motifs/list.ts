/** The motifs, in the order people meet them. */
import type { Motif } from '../contracts.js';
import { bee, butterfly, snail } from './crawlers.js';
import { bird, fish, hedgehog } from './creatures.js';
import { balloon, cakeSlice, candle, gift } from './feast.js';
import { acorn, apple, mushroom, oakLeaf, pear } from './harvest.js';
import { heart } from './hearts.js';
import { label } from './labels.js';
import { scallopedDisc } from './scallops.js';
import { cloud, drop, flame, moon, sun } from './sky.js';
import { firTree, house, key, loveLetter, tree } from './things.js';

// The table's own types are narrower than `Motif`'s; each is checked where it is defined.
export const MOTIFS: readonly Motif[] = [
  heart,
  scallopedDisc,
  label,
  ...[apple, pear, acorn, mushroom, oakLeaf],
  ...[cloud, sun, moon, drop, flame],
  ...[house, tree, firTree, candle, gift, cakeSlice, balloon, key, loveLetter],
  ...[bee, bird, butterfly, fish, hedgehog, snail],
];
