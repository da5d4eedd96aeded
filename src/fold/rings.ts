/**
 * Folding that keeps rings of panels whole: where folds meet in a point inside the paper, none of
 * them turns alone. The angles on the way are worked out from the closed box backwards, each moment
 * from the one after it, so that both panels share every fold of a ring (Levenberg & Marquardt, SIAM
 * J. Appl. Math. 11, 1963).
 */
import { endOf, solve } from '../geom/index.js';
import type { Hinge, Net } from '../model.js';
import { type Partwise, type Pose, place, pose } from './pose.js';
import { distance3, sub3 } from './space.js';

/** Moments that are worked out before any other. */
const MOMENTS = 20;
const ROUNDS = 12;
/** A fraction is changed by this to see what it moves. */
const NUDGE = 1e-5;
/** How much the mean of the fractions counts against a millimetre of gap. */
const PULL_MM = 40;

/** How far two panels of a ring are apart along their fold, mm, and which. */
export function ringGap(net: Net, at: Pose): { readonly by: number; readonly hinge?: Hinge } {
  let worst: { by: number; hinge?: Hinge } = { by: 0 };
  for (const hinge of net.ringHinges ?? []) {
    const [a, b] = [at.get(hinge.parent)!, at.get(hinge.child)!];
    for (const p of [hinge.along.start, endOf(hinge.along)]) {
      const by = distance3(place(a, p), place(b, p));
      if (!(by <= worst.by)) worst = { by, hinge };
    }
  }
  return worst;
}

/**
 * The fractions of `moving` at a share of the way, as a function of the share. `foldingOf` makes the
 * whole folding from them.
 */
export function ringWay(
  net: Net,
  moving: readonly string[],
  foldingOf: (fractions: ReadonlyMap<string, number>) => Partwise,
): (share: number) => ReadonlyMap<string, number> {
  const known: (readonly number[])[] = [moving.map(() => 1)];
  const closing = (share: number, guess: readonly number[]): readonly number[] => {
    let at = [...guess];
    let rest = residual(at, share);
    let damp = 1e-3;
    for (let i = 0; i < ROUNDS && square(rest) > 1e-12; i++) {
      const jacobian = at.map((_, k) => {
        const moved = residual(
          at.map((v, j) => (j === k ? v + NUDGE : v)),
          share,
        );
        return moved.map((v, j) => (v - rest[j]!) / NUDGE);
      });
      const step = leastSquares(jacobian, rest, damp);
      const next = at.map((v, k) => v - step[k]!);
      const left = residual(next, share);
      if (square(left) < square(rest)) {
        [at, rest, damp] = [next, left, damp / 4];
      } else damp *= 8;
    }
    return at;
  };
  return share => {
    const index = Math.min(MOMENTS, Math.floor((1 - share) * MOMENTS + 1e-9));
    while (known.length <= index) {
      const here = 1 - known.length / MOMENTS;
      const before = here + 1 / MOMENTS;
      const last = known.at(-1)!;
      known.push(
        here > 1e-9
          ? closing(
              here,
              last.map(v => (v * here) / before),
            )
          : last.map(() => 0),
      );
    }
    const whole = 1 - index / MOMENTS;
    const at = known[index]!;
    const exact = Math.abs(whole - share) < 1e-9 || !(share > 0);
    const fractions = exact
      ? at
      : closing(
          share,
          at.map(v => (v * share) / whole),
        );
    return new Map(moving.map((id, k) => [id, fractions[k]!]));
  };

  function residual(at: readonly number[], share: number): number[] {
    const placed = pose(net, foldingOf(new Map(moving.map((id, k) => [id, at[k]!]))));
    const gaps = (net.ringHinges ?? []).flatMap(({ parent, child, along }) =>
      [along.start, endOf(along)].flatMap(p => [
        ...sub3(place(placed.get(parent)!, p), place(placed.get(child)!, p)),
      ]),
    );
    const mean = at.reduce((s, v) => s + v, 0) / at.length;
    return [...gaps, PULL_MM * (mean - share)];
  }
}

const square = (r: readonly number[]) => r.reduce((s, v) => s + v * v, 0);

/** Solves (JᵀJ + damp·diag) x = Jᵀr; `columns` of J. */
function leastSquares(
  columns: readonly (readonly number[])[],
  r: readonly number[],
  damp: number,
): number[] {
  const dot = (a: readonly number[], b: readonly number[]) =>
    a.reduce((s, v, i) => s + v * b[i]!, 0);
  const matrix = columns.map((c, i) =>
    columns.map((d, j) => dot(c, d) * (i === j ? 1 + damp : 1) + (i === j ? 1e-9 : 0)),
  );
  // No step where nothing tells one: damped more, the next try is smaller.
  return (
    solve(
      matrix,
      columns.map(c => dot(c, r)),
      0,
    ) ?? columns.map(() => 0)
  );
}
