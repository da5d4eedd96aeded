/** Features of a job's boxes: read where they stand, put on the net later. */
import { type Feature, find } from '../contracts.js';
import type { FeatureSpec, Point } from '../model.js';
import type { ParamTable } from '../params.js';
import type { AskedFeature } from './asked.js';
import type { Context } from './context.js';
import type { Entry, Pair } from './document.js';
import { motifOf } from './drawings.js';
import type { Span } from './fault.js';
import { pointOf } from './placing.js';
import { degreesOf } from './quantities.js';
import { ask, type Fields, fields, headOf, listOf, oneOf, textOf } from './reading.js';
import { hyphened, paramPairs, readParams } from './values.js';

/** Features of one box; more leave no panel. */
const MOST_FEATURES = 50;
const TURN_DEG = { least: -360, most: 360 };
const PLACE = ['on', 'at', 'turn'] as const;

/** The `features:` list of a box or a table. */
export function readFeatures(c: Context, entry: Entry | undefined): readonly AskedFeature[] {
  if (!entry) return [];
  const items = listOf(c.r, entry, 'features', MOST_FEATURES, true) ?? [];
  return items.flatMap(item => readOne(c, item) ?? []);
}

/** `- window: { on: lid }`, `- window: lid` or, of the whole box, `- hinge-marks`. */
function readOne(c: Context, entry: Entry): AskedFeature | undefined {
  const { r } = c;
  const ids = (c.library.features ?? []).map(f => f.id);
  const look = (name: Entry) =>
    oneOf(r, name, 'feature', ids, id => find(c.library.features ?? [], id));
  if (entry.kind === 'text') {
    const feature = look(entry);
    return feature && readFields(c, feature, noFields(entry.at), entry.at);
  }
  const one = entry.kind === 'map' && entry.pairs.length === 1 ? entry.pairs[0] : undefined;
  if (!one) {
    return r.fault(headOf(r, entry.at), 'a feature is written as its name and a map', {
      hint: 'for instance  - window: { on: lid, shape: round, size: 40mm }',
    });
  }
  const feature = look({ kind: 'text', text: one.key, at: one.keyAt });
  if (!feature) return undefined;
  const { value } = one;
  if (value.kind === 'empty') return readFields(c, feature, noFields(one.keyAt), one.keyAt);
  // A text alone is the panel.
  const map: Entry =
    value.kind === 'text'
      ? { kind: 'map', at: value.at, pairs: [{ key: 'on', keyAt: value.at, value }] }
      : value;
  const f = fields(r, map, feature.id, keysOf(feature), [], one.keyAt);
  return f && readFields(c, feature, f, one.keyAt);
}

const noFields = (at: Span): Fields => ({
  at,
  pairs: [],
  get: () => undefined,
  pair: () => undefined,
});

const namesOf = (table: ParamTable) =>
  Object.keys(table).flatMap(name => [...new Set([name, hyphened(name)])]);

function keysOf({ params, takes = [] }: Feature): readonly string[] {
  const motif = takes.includes('motif') ? ['motif', 'params'] : [];
  return [...PLACE, ...namesOf(params), ...motif, ...(takes.includes('film') ? ['film'] : [])];
}

function readFields(c: Context, feature: Feature, f: Fields, at: Span): AskedFeature | undefined {
  const { r } = c;
  const before = r.faults.length;
  const on = f.get('on');
  if (!f.pair('on') && feature.on === 'panel') {
    r.fault(headOf(r, at), `a ${feature.id} needs on: the panel that it goes on`, {
      hint: `for instance  ${feature.id}: { on: lid }`,
    });
  }
  const panel = on ? (textOf(r, on, 'on') ?? '') : '';
  const names = namesOf(feature.params);
  const own = f.pairs.filter(p => names.includes(p.key) && p.value.kind !== 'empty');
  const params = readParams(r, own, feature);
  const point = ask(f, 'at', e => pointOf(c, e)) ?? ([0, 0] satisfies Point);
  const turn = ask(f, 'turn', e => degreesOf(r, e, 'turn', TURN_DEG)) ?? 0;
  const film = ask(f, 'film', e => c.papers.use(e));
  const outline = readMotif(c, f);
  if (r.faults.length > before) return undefined;
  const spec: FeatureSpec = {
    feature: feature.id,
    panel,
    at: point,
    turn: (turn * Math.PI) / 180,
    values: params.values,
    ...(outline && { outline }),
    ...(film !== undefined && { film }),
  };
  const places = new Map(params.places);
  for (const key of ['at', 'on', 'turn', 'motif'] as const) {
    const pair = f.pair(key);
    if (pair) places.set(key, pair.value.at);
  }
  return { spec, feature, at: headOf(r, at), places };
}

/** A motif whose outline is cut, with its own parameters under `params`. */
function readMotif(c: Context, f: Fields): FeatureSpec['outline'] {
  const { r } = c;
  const entry = f.get('motif');
  const own: Pair | undefined = f.pair('params');
  if (!entry) {
    if (own) r.fault(own.keyAt, 'params belong to a motif', { hint: 'write the rest beside on' });
    return undefined;
  }
  const motif = motifOf(c, entry);
  if (!motif) return undefined;
  const { values } = readParams(r, paramPairs(r, f.get('params')), motif);
  return { motif: motif.id, values };
}
