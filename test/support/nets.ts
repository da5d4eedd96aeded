/** Checks of folded nets, written without the code that builds or checks them. */
import { expect } from 'vitest';
import { checkNet } from '../../src/fold/check.js';
import { normalAt, type Pose, place, pose } from '../../src/fold/pose.js';
import { togetherFindings } from '../../src/fold/together.js';
import type { Net, Point } from '../../src/model.js';

/** Throws with every law that a net of the box breaks, or its parts together in their places. */
export function expectSound(nets: readonly Net[], of = ''): void {
  const alone = nets.flatMap(n => checkNet(n).map(f => `${n.id}: ${f.law}: ${f.message}`));
  const parts = nets.some(n => n.stands) ? togetherFindings(nets) : [];
  const said = [...alone, ...parts.map(f => `together: ${f.law}: ${f.message}`)];
  if (said.length > 0) throw new Error(`${of}\n${said.join('\n')}`);
}

type Axis = 0 | 1 | 2;

/**
 * The clear space of a closed rectangular box, mm, along x, y and z of the folded net: between the
 * papers' inner faces, the innermost that stand square to the axis on either side of the middle.
 * Open on one side it reaches as far as the paper does.
 */
export function clearInside(net: Net): readonly [number, number, number] {
  const folded = pose(net);
  const all = [...folded.values()].flatMap(p => p.panel.outline.segments.map(s => place(p, s.to)));
  const low = ([0, 1, 2] as const).map(i => Math.min(...all.map(p => p[i])));
  const high = ([0, 1, 2] as const).map(i => Math.max(...all.map(p => p[i])));
  const side = (axis: Axis) => {
    const middle = (low[axis]! + high[axis]!) / 2;
    const planes = planesAcross(folded, axis);
    const below = planes.filter(v => v < middle).map(v => v + net.thickness / 2);
    const above = planes.filter(v => v > middle).map(v => v - net.thickness / 2);
    return Math.min(high[axis]!, ...above) - Math.max(low[axis]!, ...below);
  };
  return [side(0), side(1), side(2)];
}

/** Fails where the clear space of a net is another than these sides, along x, y and z, mm. */
export function expectSides(net: Net, sides: readonly number[]): void {
  clearInside(net).forEach((side, i) => {
    expect(side).toBeCloseTo(sides[i]!, 9);
  });
}

function planesAcross(folded: Pose, axis: Axis): number[] {
  return [...folded.values()].flatMap(p => {
    const at: Point = p.panel.outline.start;
    return Math.abs(normalAt(p, at)[axis]) > 1 - 1e-9 ? [place(p, at)[axis]] : [];
  });
}
