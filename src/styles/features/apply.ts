/** Features put on the nets of a box, one after the other. */
import {
  type Feature,
  type FeatureAsk,
  type FeaturePiece,
  find,
  findPanel,
  type NetFacts,
} from '../../contracts.js';
import { bounds, compose, rotation, scaling, translation } from '../../geom/index.js';
import type { Affine, FeatureSpec, Net, Panel, Path } from '../../model.js';
import { fillParams, ParamError } from '../../params.js';

/** What features work with beside the net. */
export interface FeatureKit {
  readonly features: readonly Feature[];
  readonly facts: NetFacts;
  /** The outline of a motif, about the origin. */
  outline(motif: NonNullable<FeatureSpec['outline']>): Path;
}

/** A piece that goes with a net's panel, in the order of the features. */
export interface PlacedFeaturePiece extends FeaturePiece {
  readonly spec: FeatureSpec;
  readonly net: string;
  readonly panel: string;
}
export interface FeaturedNets {
  readonly nets: readonly Net[];
  readonly pieces: readonly PlacedFeaturePiece[];
}

/** One feature on the nets. Throws `ParamError` where it cannot be: `on` for the panel. */
export function applyFeature(
  nets: readonly Net[],
  spec: FeatureSpec,
  kit: FeatureKit,
): FeaturedNets {
  const feature = featureOf(spec, kit);
  const values = fillParams(feature.params, spec.values);
  const pieces: PlacedFeaturePiece[] = [];
  const refused: ParamError[] = [];
  const asks = asksOf(nets, spec, kit);
  const made = nets.map(net => {
    const ask = asks.find(a => a.net === net);
    if (!ask) return net;
    try {
      const done = feature.apply(ask, values);
      const place = { spec, net: net.id, panel: ask.panel.id };
      pieces.push(...(done.pieces ?? []).map(p => ({ ...p, ...place })));
      // Parts that say where they stand; the first of them stands in the middle.
      const stands = nets.some(n => n.stands) && (net.stands || net === nets[0]);
      return stands ? kit.facts.inPlace(net, done.net) : done.net;
    } catch (e) {
      // Of a box of several parts, some may have nothing for it.
      if (!(e instanceof ParamError && ask.whole)) throw e;
      refused.push(e);
      return net;
    }
  });
  if (refused.length === asks.length) throw refused[0];
  return { nets: made, pieces };
}

/** All of them, in order, and what to mind of them together. */
export function applyFeatures(
  nets: readonly Net[],
  specs: readonly FeatureSpec[],
  kit: FeatureKit,
): FeaturedNets & { readonly warnings: readonly string[] } {
  const made = specs.reduce<FeaturedNets>(
    (all, spec) => {
      const one = applyFeature(all.nets, spec, kit);
      return { nets: one.nets, pieces: [...all.pieces, ...one.pieces] };
    },
    { nets, pieces: [] },
  );
  const warnings = specs.flatMap(spec => {
    const feature = featureOf(spec, kit);
    const values = fillParams(feature.params, spec.values);
    return asksOf(made.nets, spec, kit).flatMap(ask => feature.mind?.(ask, values) ?? []);
  });
  return { ...made, warnings };
}

function featureOf(spec: FeatureSpec, { features }: FeatureKit): Feature {
  const feature = find(features, spec.feature);
  if (!feature) throw new Error(`a design with an unknown feature: ${spec.feature}`);
  if (spec.panel === '' && feature.on === 'panel') throw new Error(`${feature.id} needs a panel`);
  return feature;
}

/** What the feature is asked of each net that it is for. */
function asksOf(
  nets: readonly Net[],
  spec: FeatureSpec,
  { facts, outline }: FeatureKit,
): FeatureAsk[] {
  const whole = spec.panel === '';
  const named = whole ? undefined : findPanel(nets, spec.panel);
  if (!whole && !named) throw new Error(`a design with an unknown panel: ${spec.panel}`);
  const seats = facts.seatAreas(nets);
  return nets.flatMap((net): FeatureAsk[] => {
    const panel = named ?? find(net.panels, net.root)!;
    if (!net.panels.includes(panel)) return [];
    const cut = spec.outline && outline(spec.outline);
    const frame = frameOf(spec, panel);
    const film = spec.film !== undefined;
    const own = seats.filter(s => s.net === net.id).map(s => s.area);
    const { at } = spec;
    const outlined = cut && { outline: cut };
    return [{ net, panel, whole, at, frame, ...outlined, film, seats: own, facts }];
  });
}

const MIRROR = scaling(-1, 1);

/** From a feature's frame to the net's. It is looked at on the outside, where the net is mirrored. */
function frameOf({ at, turn }: FeatureSpec, { outline }: Panel): Affine {
  const b = bounds(outline);
  const middle = translation((b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2);
  return compose(middle, compose(MIRROR, compose(translation(...at), rotation(turn))));
}
