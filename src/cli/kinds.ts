/** Everything that has a name, by kind, in the order people meet it. */
export const KINDS = [
  'styles',
  'features',
  'motifs',
  'patterns',
  'fonts',
  'palettes',
  'stocks',
  'cutters',
  'conventions',
  'treats',
  'jobs',
] as const;
export type Kind = (typeof KINDS)[number];
