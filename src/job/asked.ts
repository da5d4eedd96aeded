/** What a job asks for, between reading it and looking its names up, with the place of each part. */
import type { Feature } from '../contracts.js';
import type { Decoration, FeatureSpec, Inside, Item } from '../model.js';
import type { AskedTreat } from './asked-treat.js';
import type { Entry, Pair } from './document.js';
import type { Span } from './fault.js';

/** A decoration with the places that later checks point at. */
export interface PlacedDecoration {
  readonly decoration: Decoration;
  readonly at: Span;
  /** Of the panel's name. */
  readonly on: Span;
  /** Of its list of names. */
  readonly to?: Span | undefined;
}

/** A feature with the places that later checks point at. */
export interface AskedFeature {
  readonly spec: FeatureSpec;
  readonly feature: Feature;
  readonly at: Span;
  /** Of its keys, by name. */
  readonly places: ReadonlyMap<string, Span>;
}

/** How a size is meant: clear space, size over all, or crease to crease with no paper between. */
export const MEASURES = ['inside', 'outside', 'creases'] as const;
export type Measure = (typeof MEASURES)[number];

export interface AskedSize {
  readonly measure: Measure;
  readonly sides: readonly [length: number, width: number, height: number];
  readonly at: Span;
  /** Of each side, where they stand apart. */
  readonly parts?: Readonly<Record<keyof Inside, Span>>;
}

/** A box before its names are looked up. */
export interface AskedBox {
  /** Where the entry begins. */
  readonly at: Span;
  readonly name?: Entry | undefined;
  readonly title?: Entry | undefined;
  readonly count?: Entry | undefined;
  readonly style?: Entry | undefined;
  readonly stock?: Entry | undefined;
  /** Undefined when it was at fault, which has been told. */
  readonly size?: AskedSize | undefined;
  /** In place of a size: what the box is to hold. */
  readonly treat?: AskedTreat | undefined;
  readonly params: readonly Pair[];
  readonly decorations: readonly PlacedDecoration[];
  readonly features: readonly AskedFeature[];
  readonly split?: Entry | undefined;
  /** Marks of a ruler that all folds are to lie on. */
  readonly round?: Entry | undefined;
  /** Further words for the templates of names and titles. */
  readonly words: ReadonlyMap<string, string>;
}

/** Where the parts of an item stand, for faults that are found after the job was read. */
export interface ItemPlaces {
  readonly at: Span;
  readonly size: Span;
  readonly stock: Span;
  readonly decorations: ReadonlyMap<string, Span>;
  /** In the order of the list. */
  readonly features: readonly Span[];
}
export interface PlacedItem {
  readonly item: Item;
  readonly places: ItemPlaces;
  readonly nameAt: Span;
}

/** What a decoration is, with the places of a motif's parameters. */
export interface MotifAsk {
  readonly kind: 'motif';
  readonly what: Extract<Decoration['what'], { kind: 'motif' }>;
  readonly places: ReadonlyMap<string, Span>;
  readonly sound: boolean;
  readonly at: Span;
}
