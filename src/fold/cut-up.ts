/** A net too large for the sheet, cut up along its folds into as few parts as fit. */
import type { Net, Seat } from '../model.js';
import { type Split, splitsOf } from './split.js';
import { inPlace, splitFindings } from './split-check.js';
import { togetherFindings } from './together.js';

export type { Split };

/** More joints are more work than a smaller box. */
const MOST_PARTS = 4;
/** Cuts that are looked at for one net, so that the search ends soon. */
const MOST_TRIES = 200;

/** A net that fits, or one cut in two, of which each may be cut again. */
interface Cut {
  readonly net: Net;
  readonly at?: { readonly split: Split; readonly parts: readonly [Cut, Cut] };
}

/** What is asked of every part, with what is known already. */
interface Search {
  fits(net: Net): boolean;
  splits(net: Net): readonly Split[];
  sound(split: Split): boolean;
  /** Cuts that may still be looked at. */
  left: number;
}

/** Nets of one box, those too large cut up. `parts` go by the net they come from. */
export interface SplitNets {
  readonly parts: readonly (readonly Net[])[];
  readonly splits: readonly (readonly Split[])[];
}

export function splitNets(nets: readonly Net[], fits: (net: Net) => boolean): SplitNets {
  const cuts: Cut[] = [];
  let own = nets.map(net => [net]);
  for (const [i, net] of nets.entries()) {
    const withParts = (parts: Net[]) => own.map((list, k) => (k === i ? parts : list));
    // The flap of a joint must not be where another part of the box is.
    const together = (parts: Net[]) =>
      togetherFindings(seated(nets, withParts(parts)).flat()).length === 0;
    const cut = cutUp(net, fits, nets.length > 1 ? together : undefined);
    cuts.push(cut);
    own = withParts(partsOf(net, cut));
  }
  return { parts: seated(nets, own), splits: cuts.map(splitsIn) };
}

/** What another net of the box is glued to is on one of its parts now. */
const seated = (nets: readonly Net[], own: readonly Net[][]): Net[][] =>
  own.map(list =>
    list.map(part =>
      seatedOn(part, ({ net, panel }) => {
        const i = nets.findIndex(n => n.id === net);
        return own[i]?.find(p => p.panels.some(q => q.id === panel))?.id ?? net;
      }),
    ),
  );

/** The parts of one net, each where it was in the whole, numbered. */
function partsOf(net: Net, cut: Cut): Net[] {
  const leaves = leavesOf(cut, net);
  if (leaves.length === 1) return [net];
  const idOf = new Map(leaves.map((l, k) => [l, `${net.id}-${k + 1}`]));
  return leaves.map((leaf, k): Net => {
    const portion = { of: net.title, number: k + 1, count: leaves.length };
    const title = `${net.title}, part ${k + 1} of ${leaves.length}`;
    const named = { ...leaf.net, id: idOf.get(leaf)!, title, portion };
    return seatedOn(named, onto => {
      const holds = (l: Leaf) =>
        l.from.includes(onto.net) && l.net.panels.some(p => p.id === onto.panel);
      const found = leaves.find(l => onto.net !== net.id && holds(l));
      return found ? idOf.get(found)! : onto.net;
    });
  });
}

function seatedOn(net: Net, holder: (onto: Seat['onto']) => string): Net {
  if (!net.seats) return net;
  return {
    ...net,
    seats: net.seats.map(s => ({ ...s, onto: { ...s.onto, net: holder(s.onto) } })),
  };
}

const splitsIn = ({ at }: Cut): Split[] => (at ? [at.split, ...at.parts.flatMap(splitsIn)] : []);

interface Leaf {
  readonly net: Net;
  /** The nets that it was cut from, and itself. */
  readonly from: readonly string[];
}

/** The parts at the ends of the cuts, each where it was in the whole. */
function leavesOf({ at }: Cut, placed: Net, from: readonly string[] = []): Leaf[] {
  const ids = [...from, placed.id];
  if (!at) return [{ net: placed, from: ids }];
  const [first, second] = inPlace(placed, at.split);
  return [...leavesOf(at.parts[0], first, ids), ...leavesOf(at.parts[1], second, ids)];
}

const BARE = { hinges: [], ringHinges: [], joins: [], closures: [] } as const;

/** The net as it is where it fits, or where no cuts help. `together`: whether its parts fit with the
 *  other nets of the box, where there are any. */
function cutUp(net: Net, fits: (net: Net) => boolean, together?: (parts: Net[]) => boolean): Cut {
  const search: Search = {
    fits: remembered(fits),
    splits: remembered(splitsOf),
    sound: remembered(split => splitFindings(split).length === 0),
    left: MOST_TRIES,
  };
  // No cut helps where a panel is too large by itself.
  const panels = net.panels.map(p => ({ ...net, root: p.id, panels: [p], ...BARE }));
  if (search.fits(net) || !panels.every(fits)) return { net };
  for (let n = 2; n <= MOST_PARTS; n++) {
    for (const cut of ways(net, n, search)) {
      const parts = partsOf(net, cut);
      // Two parts of one net have been proved as they were cut.
      if (together ? together(parts) : n === 2 || alone(parts).length === 0) return cut;
    }
  }
  return { net };
}

/** What is wrong with parts of one net together. What it is glued to elsewhere is not there. */
function alone(parts: readonly Net[]) {
  const ids = parts.map(p => p.id);
  return togetherFindings(
    parts.map(p => (p.seats ? { ...p, seats: p.seats.filter(s => ids.includes(s.onto.net)) } : p)),
  );
}

function remembered<K extends object, V>(ask: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return key => {
    if (!known.has(key)) known.set(key, ask(key));
    return known.get(key)!;
  };
}

/** Every way to cut a net into n parts that fit, the best first. */
function* ways(net: Net, n: number, search: Search): Generator<Cut> {
  if (n === 1) {
    if (search.fits(net)) yield { net };
    return;
  }
  // What fits is not cut again.
  if (search.fits(net)) return;
  for (const split of search.splits(net)) {
    if (search.left-- <= 0) return;
    for (let k = 1; k < n; k++) {
      for (const first of ways(split.parts[0], k, search)) {
        for (const second of ways(split.parts[1], n - k, search)) {
          if (search.sound(split)) yield { net, at: { split, parts: [first, second] } };
        }
      }
    }
  }
}
