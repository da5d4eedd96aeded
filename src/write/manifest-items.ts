/** What the manifest says of items: what each is, and how large. */
import type { Item } from '../model.js';
import { count, list, number, object, text } from './checked-json.js';
import { rounded } from './number.js';

export interface ManifestItem {
  readonly name: string;
  readonly title: string;
  readonly count: number;
  /** The box's style and stock; empty where there is none. */
  readonly style: string;
  readonly stock: string;
  /** Clear space: length, width, height, mm; none without a box. */
  readonly insideMm: readonly number[];
}

export const itemEntry = ({ name, title, count: many, box }: Item): ManifestItem => {
  const { length, width, height } = box?.spec.inside ?? { length: 0, width: 0, height: 0 };
  return {
    name,
    title,
    count: many,
    style: box?.style ?? '',
    stock: box?.stock ?? '',
    insideMm: box ? [length, width, height].map(v => rounded(v, 3)) : [],
  };
};

export const CHECK_ITEMS = list(
  object({
    name: text(),
    title: text(),
    count,
    style: text(),
    stock: text(),
    insideMm: list(number(0)),
  }),
);
