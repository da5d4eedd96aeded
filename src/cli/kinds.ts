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
  'marks',
  'cards',
  'treats',
  'boxes',
  'jobs',
] as const;
export type Kind = (typeof KINDS)[number];

/** A kind as `show` takes it. */
export const singular = (kind: Kind): string => (kind === 'boxes' ? 'box' : kind.slice(0, -1));
