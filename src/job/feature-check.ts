/** Features put on a box once while the job is read, so that what a panel cannot take is told at its
 *  place. */
import { findPanel, motifNamed, panelNames } from '../contracts.js';
import { netFacts } from '../fold/facts.js';
import type { Net } from '../model.js';
import { motifOutline } from '../motifs/outline.js';
import { ParamError } from '../params.js';
import { applyFeature, type FeatureKit } from '../styles/features/apply.js';
import type { AskedFeature } from './asked.js';
import type { Context } from './context.js';
import { didYouMean } from './nearest.js';
import { cut, listed } from './reading.js';
import { tellParamError } from './values.js';

/** Tells what is wrong with the features of a box; each is tried on the nets that those before it
 *  left. */
export function tellFeatureFaults(
  c: Context,
  nets: readonly Net[],
  style: string,
  asked: readonly AskedFeature[],
  where: string,
): void {
  const { features = [], tools } = c.library;
  let made = nets;
  for (const one of asked) {
    const { spec, feature } = one;
    if (!namesKnown(c, nets, style, one)) continue;
    // Without tools a motif has no outline to try.
    if (spec.outline && !tools) continue;
    try {
      made = applyFeature(made, spec, { features, facts: netFacts, outline: outlineIn(c) }).nets;
    } catch (error) {
      if (!(error instanceof ParamError)) throw error;
      const place = one.places.get(error.param) ?? (spec.outline && one.places.get('motif'));
      tellParamError(c.r, error, place ?? one.at, feature, where);
    }
  }
}

const outlineIn =
  ({ library: { motifs, tools } }: Context): FeatureKit['outline'] =>
  ({ motif, values }) =>
    motifOutline(motifNamed(motifs, motif, tools)!, values, tools!);

/** The panels that a feature names, told where there are none. */
function namesKnown(c: Context, nets: readonly Net[], style: string, one: AskedFeature): boolean {
  const { panel, values } = one.spec;
  const tell = (key: string, name: string, known: readonly string[]) => {
    const hint = didYouMean(name, known);
    c.r.fault(one.places.get(key) ?? one.at, `${style} has no panel "${cut(name)}"`, {
      allowed: listed(known),
      ...(hint ? { hint } : {}),
    });
    return false;
  };
  if (panel !== '' && !findPanel(nets, panel)) return tell('on', panel, panelNames(nets));
  const { to } = values;
  if (typeof to !== 'string' || to === 'auto') return true;
  const own = findPanel(nets, panel);
  const ids = nets.filter(n => own && n.panels.includes(own)).flatMap(n => n.panels.map(p => p.id));
  return ids.includes(to) || tell('to', to, ids);
}
