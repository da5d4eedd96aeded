/** The motifs, in the order people meet them. */
import type { Motif } from '../contracts.js';
import { banner } from './banners.js';
import { bow, ribbonTails } from './bows.js';
import { branch } from './branch.js';
import { bee, butterfly, snail } from './crawlers.js';
import { bird, fish } from './creatures.js';
import { doily } from './doily.js';
import { balloon, cakeSlice, candle, gift } from './feast.js';
import { blossom, dahlia, daisy } from './flowers.js';
import { apple, pear } from './fruit.js';
import { leaf, sprig } from './greenery.js';
import { greeting } from './greeting.js';
import { acorn, mushroom, oakLeaf } from './harvest.js';
import { foldedHeart, laceHeart, slimHeart } from './heart-kinds.js';
import { heart } from './hearts.js';
import { hedgehog } from './hedgehog.js';
import { label } from './labels.js';
import { laceStrip } from './lace-strip.js';
import { pennants } from './pennants.js';
import { rolledFlower } from './rolled-flower.js';
import { scallopedHeart, scallopedOval, scallopedRectangle } from './scallop-shapes.js';
import { scallopedDisc } from './scallops.js';
import { seal } from './seal.js';
import { cloud, drop, flame, moon, sun } from './sky.js';
import { snowflake } from './snowflake.js';
import { star, sunburst } from './stars.js';
import { bracketStrip, scallopStrip, zigzagStrip } from './strips.js';
import { tag } from './tags.js';
import { house, key, loveLetter } from './things.js';
import { firTree, tree } from './trees.js';
import { button, gem, pebble } from './trinkets.js';
import { wreath } from './wreath.js';

// The table's own types are narrower than `Motif`'s; each is checked where it is defined.
export const MOTIFS: readonly Motif[] = [
  ...[heart, slimHeart, foldedHeart, laceHeart],
  ...[scallopedDisc, scallopedOval, scallopedRectangle, scallopedHeart],
  doily,
  ...[scallopStrip, zigzagStrip, bracketStrip, laceStrip],
  ...[label, tag, seal],
  greeting,
  ...[bow, ribbonTails, banner, pennants],
  ...[blossom, daisy, dahlia, rolledFlower],
  ...[star, sunburst, snowflake],
  ...[gem, pebble, button],
  ...[leaf, sprig, branch, wreath],
  ...[apple, pear, acorn, mushroom, oakLeaf],
  ...[cloud, sun, moon, drop, flame],
  ...[house, tree, firTree, candle, gift, cakeSlice, balloon, key, loveLetter],
  ...[bee, bird, butterfly, fish, hedgehog, snail],
];
