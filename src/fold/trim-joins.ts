/** Joins and folds of a panel that has lost a strip of its edge. */
import { distance, distanceToPath, endOf, partOf, pathLength, pointAlong } from '../geom/index.js';
import type { EdgeRef, Hinge, Join, Net, Panel, Path } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { place, pose } from './pose.js';
import { distance3 } from './space.js';

/** The part of a path that still lies on an outline, by lengths along it. */
interface Kept {
  readonly from: number;
  readonly to: number;
}

/** Halvings in the search for where a path leaves the outline: to a nanometre in a metre. */
const HALVINGS = 30;

function keptOn(path: Path, outline: Path): Kept | undefined {
  const whole = pathLength(path);
  // Half of what the checks allow.
  const on = (s: number) => distanceToPath(pointAlong(path, s).point, outline) <= SAME_POINT_MM / 2;
  const middle = whole / 2;
  if (!on(middle)) return undefined;
  const end = (out: number) => {
    if (on(out)) return out;
    let [good, bad] = [middle, out];
    for (let i = 0; i < HALVINGS; i++) {
      const s = (good + bad) / 2;
      if (on(s)) good = s;
      else bad = s;
    }
    return good;
  };
  return { from: end(0), to: end(whole) };
}

/** The net's joins once `panel` has its new outline: edges that must meet are shorter by what is lost,
 *  on both sides. An edge that is lost meets nothing. */
export function trimmedJoins(net: Net, panel: Panel): Join[] {
  const folded = pose(net);
  return net.joins.flatMap((join): Join[] => {
    if (join.kind === 'glue') return [join];
    if (join.kind === 'tuck') {
      if (join.a.panel !== panel.id || !('along' in join.a)) return [join];
      const kept = keptOn(join.a.along, panel.outline);
      return kept ? [{ ...join, a: shortened(join.a, kept) }] : [];
    }
    const mine = [join.a, join.b].find(r => r.panel === panel.id);
    if (!mine) return [join];
    const kept = keptOn(mine.along, panel.outline);
    if (!kept) return [];
    const theirs = mine === join.a ? join.b : join.a;
    const place3 = (ref: EdgeRef, p: 'start' | 'end') =>
      place(folded.get(ref.panel)!, p === 'start' ? ref.along.start : endOf(ref.along));
    const same = distance3(place3(mine, 'start'), place3(theirs, 'start'));
    const back = distance3(place3(mine, 'start'), place3(theirs, 'end'));
    const whole = pathLength(mine.along);
    const other = same <= back ? kept : { from: whole - kept.to, to: whole - kept.from };
    const [a, b] = [shortened(mine, kept), shortened(theirs, other)];
    return [mine === join.a ? { ...join, a, b } : { ...join, a: b, b: a }];
  });
}

/** The folds on `panel`, each as long as the panel's new outline leaves it; that at the seam stays as
 *  it is, for posing. */
export function trimmedHinges(net: Net, panel: Panel, seam: Hinge): Hinge[] {
  return net.hinges.map(h => {
    if (h === seam || (h.parent !== panel.id && h.child !== panel.id)) return h;
    const kept = keptOn(h.along, panel.outline);
    return kept ? { ...h, along: cutTo(h.along, kept) } : h;
  });
}

const shortened = (ref: EdgeRef, kept: Kept): EdgeRef => ({
  ...ref,
  along: cutTo(ref.along, kept),
});

/** Whole paths stay themselves, to the bit. */
function cutTo(path: Path, { from, to }: Kept): Path {
  const end = Math.min(to, pathLength(path));
  if (from === 0 && distance(pointAlong(path, end).point, endOf(path)) === 0) return path;
  return partOf(path, from, end);
}
