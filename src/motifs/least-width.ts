/** Whether paper is narrower somewhere than it may be, found by moving its edges inward and outward. */
import type { Motif, MotifTools } from '../contracts.js';
import { counterClockwise, offsetRegions } from '../geom/index.js';
import type { Layer, ParamValues } from '../model.js';
import { ParamError } from '../params.js';

/** What is narrower on a layer than `least` mm: a neck, which parts or vanishes when every edge is moved
 *  inward by half of that; a hole, which vanishes or parts when its own edge is; a slot, which closes
 *  when the edges are moved outward. Nothing where all is wide enough. Points are no necks. */
export function narrowPlace(
  { outline, holes }: Pick<Layer, 'outline' | 'holes'>,
  least: number,
): 'neck' | 'hole' | 'slot' | undefined {
  const paper = [{ outer: outline, holes }];
  // What is exactly as wide as the least is wide enough.
  const half = (least / 2) * (1 - 1e-3);
  const thin = offsetRegions(paper, -half, 'round');
  if (thin.length !== 1 || thin[0]!.holes.length !== holes.length) return 'neck';
  for (const hole of holes) {
    const opening = [{ outer: counterClockwise(hole), holes: [] }];
    if (offsetRegions(opening, -half, 'round').length !== 1) return 'hole';
  }
  const fat = offsetRegions([{ outer: outline, holes: [] }], half, 'round');
  return fat.length === 1 && fat[0]!.holes.length === 0 ? undefined : 'slot';
}

/** Sizes that are tried for one that keeps the least width: each larger than the one before by this. */
const GROWTH = 1.12;
const MOST_TRIES = 24;

const narrowLayer = (layers: readonly Layer[], least: number) =>
  layers
    .map(l => ({ layer: l, place: narrowPlace(l, least) }))
    .find(({ place }) => place !== undefined);

/** Throws `ParamError` where a layer of a motif has a neck, a hole or a slot narrower than `least` mm,
 *  and says at which size it would have none. */
export function keepLeastWidth(
  motif: Motif,
  values: ParamValues,
  layers: readonly Layer[],
  least: number,
  tools: MotifTools,
): void {
  const found = narrowLayer(layers, least);
  if (!found) return;
  const size = values.size as number;
  const wider = widerThatKeeps(motif, values, least, tools);
  throw new ParamError(
    'least-width',
    least,
    `less: at a size of ${Number(size.toFixed(2))} mm the layer "${found.layer.id}" of ` +
      `${motif.id} has a ${found.place} narrower than that`,
    wider
      ? `make it ${wider} mm wide or more, or allow a smaller least width`
      : 'allow a smaller least width',
  );
}

/** The first of some larger sizes, in whole mm, at which nothing is too narrow. */
function widerThatKeeps(
  motif: Motif,
  values: ParamValues,
  least: number,
  tools: MotifTools,
): number | undefined {
  const spec = motif.params.size;
  if (spec?.kind !== 'length') return undefined;
  let size = values.size as number;
  for (let i = 0; i < MOST_TRIES; i++) {
    size = Math.ceil(size * GROWTH);
    if (!(size <= spec.most)) return undefined;
    try {
      if (!narrowLayer(motif.build({ ...values, size }, tools), least)) return size;
    } catch (error) {
      if (!(error instanceof ParamError)) throw error;
    }
  }
  return undefined;
}
