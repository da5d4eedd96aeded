/** Closed nets as they stand on a table, and the parts of one box in their places. */
import type { Net } from '../model.js';
import { FOLD_FACET_MM } from '../units/tolerances.js';
import { faceOf } from './face.js';
import { facetsOf } from './facets.js';
import { type Folding, type PanelPose, pose } from './pose.js';
import {
  add3,
  after,
  cross3,
  extent,
  length3,
  type Point3,
  type Rigid,
  STILL,
  scale3,
  turned,
} from './space.js';

/** The least turn that brings a net's `up` to z; a net upside down turns about x. */
export function upright({ up = [0, 0, 1] }: Net): Rigid {
  const u = scale3(up, 1 / length3(up));
  const axis = cross3(u, [0, 0, 1]);
  const sine = length3(axis);
  const flip: Rigid = { ...STILL, y: [0, -1, 0], z: [0, 0, -1] };
  if (!(sine > 0)) return u[2] > 0 ? STILL : flip;
  const k = scale3(axis, 1 / sine);
  const cosine = u[2];
  // Rodrigues' rotation formula.
  const turn = (p: Point3): Point3 =>
    add3(
      add3(scale3(p, cosine), scale3(cross3(k, p), sine)),
      scale3(k, (k[0] * p[0] + k[1] * p[1] + k[2] * p[2]) * (1 - cosine)),
    );
  return { x: turn([1, 0, 0]), y: turn([0, 1, 0]), z: turn([0, 0, 1]), at: [0, 0, 0] };
}

/** A turn about z, then a shift. */
export function turnedTo(angle: number, at: Point3): Rigid {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { x: [c, s, 0], y: [-s, c, 0], z: [0, 0, 1], at };
}

/**
 * The panels of a net that stands in its place in the box, folded as far as said: its lowest point is
 * at `stands.height`, and the middle of its root's bounds at `stands.at`; of all its bounds where
 * nothing is said.
 */
export function standing(
  net: Net,
  folding: Folding = 1,
  tolerance: number = FOLD_FACET_MM,
): PanelPose[] {
  const { at = [0, 0], height = 0, turn = 0 } = net.stands ?? {};
  const up = after(turnedTo(turn, [0, 0, 0]), upright(net));
  const folded = [...pose(net, folding).values()];
  const points = (list: readonly PanelPose[]) =>
    list
      .flatMap(p => facetsOf(faceOf(p.panel), p, tolerance))
      .flatMap(f => f.loops.flat().map(p => turned(up, p)));
  const all = points(folded);
  const centred = net.stands ? points(folded.filter(p => p.panel.id === net.root)) : all;
  const middle = (axis: 0 | 1) => {
    const values = centred.map(p => p[axis]);
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  const low = Math.min(...all.map(p => p[2]));
  const shift: Point3 = [at[0] - middle(0), at[1] - middle(1), height - low];
  const move: Rigid = { ...up, at: shift };
  return folded.map(p => ({ ...p, frame: after(move, p.frame) }));
}

/** Sizes over all are told to a tenth of a millimetre. */
const EXTENT_MM = 0.05;

/** The room that closed parts in their places take, of their mid-surfaces. */
export function standingExtent(nets: readonly Net[]): readonly [low: Point3, high: Point3] {
  const facets = nets.flatMap(net =>
    standing(net, 1, EXTENT_MM).flatMap(p =>
      facetsOf(faceOf(p.panel), p, EXTENT_MM).flatMap(f => [f.low, f.high]),
    ),
  );
  return extent(facets, p => p);
}
