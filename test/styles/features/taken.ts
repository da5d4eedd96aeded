/** Features tried on every panel of every style, for the tests of their laws. */
import { panelNames } from '../../../src/contracts.js';
import { netFacts } from '../../../src/fold/index.js';
import { bounds, circle } from '../../../src/geom/index.js';
import type { FeatureSpec, Net, ParamValues, Path } from '../../../src/model.js';
import { fillParams, ParamError } from '../../../src/params.js';
import {
  applyFeature,
  applyFeatures,
  FEATURES,
  type FeaturedNets,
  type FeatureKit,
} from '../../../src/styles/features/index.js';
import { flipLid } from '../../../src/styles/flip-lid.js';
import { straightTuck } from '../../../src/styles/straight-tuck.js';

/** Motifs are not of this room: where an outline is asked for it is a circle of 8 mm. */
export const kit: FeatureKit = {
  features: FEATURES,
  facts: netFacts,
  outline: () => circle([0, 0], 4),
};

export const spec = (
  feature: string,
  panel: string,
  values: ParamValues = {},
  more: Partial<FeatureSpec> = {},
): FeatureSpec => ({ feature, panel, values, at: [0, 0], turn: 0, ...more });

/** A panel of each role, first and last; of a wheel of teeth there are dozens alike. */
export function typicalPanels(nets: readonly Net[]): string[] {
  const all = panelNames(nets).filter(name => nets.length === 1 || name.includes('/'));
  const roleOf = (name: string) => {
    const id = name.split('/').at(-1)!;
    const net = nets.find(n => name.startsWith(`${n.id}/`)) ?? nets[0]!;
    return `${net.id} ${net.panels.find(p => p.id === id)?.role}`;
  };
  const roles = [...new Set(all.map(roleOf))];
  const ends = roles.flatMap(role => {
    const own = all.filter(name => roleOf(name) === role);
    return [own[0]!, own.at(-1)!];
  });
  return [...new Set(ends)];
}

export type Tried =
  | { readonly made: FeaturedNets; readonly refused?: undefined }
  | { readonly refused: ParamError; readonly made?: undefined };

/** What came of one feature; anything but a refusal in words is thrown. */
export function tried(nets: readonly Net[], asked: FeatureSpec): Tried {
  try {
    return { made: applyFeature(nets, asked, kit) };
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    return { refused: error };
  }
}

/** The panel of a net before and after. */
export const changed = (before: readonly Net[], after: readonly Net[]) =>
  before.flatMap((net, i) =>
    net.panels.flatMap(old => {
      const now = after[i]!.panels.find(p => p.id === old.id)!;
      return now === old ? [] : [{ net: after[i]!, old, now }];
    }),
  );

/** The boxes that features are tried on, of paper of this. */
export const T = 0.3;
export const flip = (given: ParamValues = { dots: 0 }) =>
  flipLid.build({ inside: flipLid.example, thickness: T }, fillParams(flipLid.params, given));
export const tuck = (given: ParamValues = {}) =>
  straightTuck.build(
    { inside: straightTuck.example, thickness: T },
    fillParams(straightTuck.params, given),
  );
export const make = (nets: readonly Net[], ...specs: readonly FeatureSpec[]) =>
  applyFeatures(nets, specs, kit);
export const panelOf = (nets: readonly Net[], id: string) =>
  nets.flatMap(n => n.panels).find(p => p.id === id)!;
export const sizeOf = (path: Path) => {
  const b = bounds(path);
  return [b.maxX - b.minX, b.maxY - b.minY] as const;
};
