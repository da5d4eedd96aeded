/** A box for every feature, as a person would use it: for the goldens, and for the README's sheet. */
import { find } from '../../src/contracts.js';
import { netFacts } from '../../src/fold/index.js';
import type { FeatureSpec, Inside, ParamValues } from '../../src/model.js';
import { MOTIFS, motifOutline } from '../../src/motifs/index.js';
import { makeMotifTools } from '../../src/motifs/tools.js';
import { fillParams } from '../../src/params.js';
import { applyFeatures, FEATURES } from '../../src/styles/features/index.js';
import { STYLES } from '../../src/styles/index.js';

export interface ShownFeature {
  readonly id: string;
  readonly caption: string;
  readonly style: string;
  readonly inside?: Inside;
  readonly values?: ParamValues;
  readonly features: readonly FeatureSpec[];
}

type More = Partial<Omit<FeatureSpec, 'feature' | 'panel' | 'values'>>;
const on = (
  feature: string,
  panel: string,
  values: ParamValues = {},
  more: More = {},
): FeatureSpec => ({ feature, panel, values, at: [0, 0], turn: 0, ...more });

const FILM = { film: 'film' } as const;
const carton = { style: 'straight-tuck', inside: { length: 62, width: 34, height: 88 } } as const;
const tray = { style: 'lid-and-base', inside: { length: 84, width: 60, height: 26 } } as const;
const topper = {
  style: 'bag-topper',
  inside: { length: 90, width: 0.5, height: 50 },
  values: { hole: 0 },
} as const;
const flip = {
  style: 'flip-lid',
  inside: { length: 96, width: 52, height: 26 },
  values: { dots: 0 },
} as const;

export const SHOWN_FEATURES: readonly ShownFeature[] = [
  {
    id: 'window',
    caption: 'window, with its film',
    ...carton,
    features: [on('window', 'front', { corner: 8 }, FILM)],
  },
  {
    id: 'window-round',
    caption: 'window, round',
    ...tray,
    features: [on('window', 'lid', { shape: 'round', size: 40 }, FILM)],
  },
  {
    id: 'window-motif',
    caption: 'window, the outline of a motif',
    ...carton,
    features: [
      on('window', 'front', {}, { ...FILM, outline: { motif: 'heart', values: { size: 40 } } }),
    ],
  },
  {
    id: 'thumb-notch',
    caption: 'thumb notch',
    ...tray,
    features: [on('thumb-notch', 'lid/front'), on('thumb-notch', 'lid/back')],
  },
  {
    id: 'hanging-hole-round',
    caption: 'hanging hole, round',
    ...topper,
    features: [on('hanging-hole', 'front', { edge: 'none', through: true }, { at: [0, 10] })],
  },
  {
    id: 'hanging-hole-slot',
    caption: 'hanging hole, slot of a shop hook',
    ...topper,
    features: [
      on('hanging-hole', 'front', { shape: 'slot', edge: 'none', through: true }, { at: [0, 8] }),
    ],
  },
  {
    id: 'ribbon-slots',
    caption: 'ribbon slots',
    ...carton,
    features: [on('ribbon', 'front', { width: 12, apart: 22 }, { at: [0, 18] })],
  },
  {
    id: 'ribbon-holes',
    caption: 'ribbon holes, through lid and flap',
    ...flip,
    features: [
      on('ribbon', 'lid', { shape: 'holes', width: 4, apart: 16, through: true }, { at: [0, -12] }),
    ],
  },
  {
    id: 'corners-round',
    caption: 'corners, rounded',
    ...flip,
    values: { dots: 0, corner: 0 },
    features: [on('corners', 'lid', { size: 12 })],
  },
  {
    id: 'corners-chamfer',
    caption: 'corners, chamfered',
    ...flip,
    values: { dots: 0, corner: 0 },
    features: [on('corners', 'lid', { shape: 'chamfer', size: 12 })],
  },
  {
    id: 'tear-strip',
    caption: 'tear strip, round the box',
    ...carton,
    features: [on('tear-strip', 'front', { reach: 'around' }, { at: [0, 20] })],
  },
  {
    id: 'slit-lock',
    caption: 'slit lock in place of glue',
    ...carton,
    features: [on('slit-lock', 'glue-flap')],
  },
  {
    id: 'closure-hook-and-loop',
    caption: 'closure: hook-and-loop dots',
    ...flip,
    features: [on('closure', 'lid', { count: 2 })],
  },
  {
    id: 'closure-sticker',
    caption: 'closure: stickers',
    ...carton,
    features: [on('closure', 'top-tuck', { means: 'sticker', diameter: 8, count: 2 })],
  },
  {
    id: 'closure-magnet',
    caption: 'closure: magnets',
    ...flip,
    features: [on('closure', 'lid', { means: 'magnet', count: 3 })],
  },
  {
    id: 'glue-areas',
    caption: 'glue areas, drawn',
    ...flip,
    features: [on('glue-areas', '', { inset: 1.5 })],
  },
  {
    id: 'hinge-marks',
    caption: 'hinge marks',
    ...flip,
    features: [on('hinge-marks', '', { length: 4 })],
  },
];

/** Its nets without and with the features, and the pieces that go with them. */
export function shownNets({ style: id, inside, values = {}, features }: ShownFeature) {
  const style = find(STYLES, id)!;
  const plain = style.build(
    { inside: inside ?? style.example, thickness: 0.3 },
    fillParams(style.params, values),
  );
  const tools = makeMotifTools({ fonts: new Map() });
  const made = applyFeatures(plain, features, {
    features: FEATURES,
    facts: netFacts,
    outline: ({ motif, values: own }) => motifOutline(find(MOTIFS, motif)!, own, tools),
  });
  return { plain, ...made };
}
