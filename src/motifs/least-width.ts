/** Whether paper is narrower somewhere than it may be, found by moving its edges inward and outward. */
import { counterClockwise, offsetRegions } from '../geom/index.js';
import type { Layer } from '../model.js';

/** What is narrower on a layer than `least` mm: a neck, which parts or vanishes when every edge is moved
 *  inward by half of that; a hole, which vanishes or parts when its own edge is; a slot, which closes
 *  when the edges are moved outward. Nothing where all is wide enough. Points are no necks. */
export function narrowPlace(
  { outline, holes }: Pick<Layer, 'outline' | 'holes'>,
  least: number,
): 'neck' | 'hole' | 'slot' | undefined {
  const paper = [{ outer: outline, holes }];
  const half = least / 2;
  const thin = offsetRegions(paper, -half, 'round');
  if (thin.length !== 1 || thin[0]!.holes.length !== holes.length) return 'neck';
  for (const hole of holes) {
    const opening = [{ outer: counterClockwise(hole), holes: [] }];
    if (offsetRegions(opening, -half, 'round').length !== 1) return 'hole';
  }
  const fat = offsetRegions([{ outer: outline, holes: [] }], half, 'round');
  return fat.length === 1 && fat[0]!.holes.length === 0 ? undefined : 'slot';
}
