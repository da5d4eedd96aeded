/** What every arrangement obeys, as faults in words. */
import type { Arrangement, Inside, Place, Triple } from '../../src/model.js';
import { SIDES } from '../../src/model.js';

/** Sums of some hundred lengths, each rounded to 53 bits, and grids that are allowed 1e-6 mm. */
const SLACK = 1e-5;

export function faultsOf(a: Arrangement, inside: Inside = a.inside): string[] {
  const { treat, places } = a;
  const faults: string[] = [];
  if (places.length !== treat.count) faults.push(`${places.length} places for ${treat.count}`);
  places.forEach((p, i) => {
    const wrong = outside(p, a, inside);
    if (wrong) faults.push(`piece ${i} ${wrong}`);
    const sides = sidesOf(a);
    if (![...p.size].every((s, k) => near([...p.size].sort(byNumber)[k]!, sides[k]!) && s > 0))
      faults.push(`piece ${i} measures ${p.size.join(' x ')}`);
  });
  for (let i = 0; i < places.length; i++)
    for (let j = i + 1; j < places.length; j++) {
      const [p, q] = [places[i]!, places[j]!];
      const distance = distanceOf(p, q);
      const sameLayer = p.layer === q.layer;
      const least = sameLayer ? Math.max(treat.clearance, treat.apart) : 0;
      if (!(distance >= least - SLACK)) faults.push(`pieces ${i} and ${j} are ${distance} apart`);
    }
  return faults;
}

const byNumber = (a: number, b: number) => a - b;
const near = (a: number, b: number) => Math.abs(a - b) <= SLACK;

function sidesOf({ treat: { shape: s } }: Arrangement): number[] {
  const shape = s as unknown as Record<string, number>;
  const { length = 0, width = 0, height = 0, diameter = 0, squash = 0 } = shape;
  const sides = {
    block: () => [length, width, height],
    pouch: () => [length, width, height * (1 - squash)],
    round: () => [diameter, diameter, height],
    ball: () => [diameter, diameter, diameter],
    stick: () => [diameter, diameter, length],
  };
  return sides[s.kind]().sort(byNumber);
}

/** The clearance is kept to every wall and to the lid, and nothing is below the floor. */
function outside(p: Place, { treat, up }: Arrangement, inside: Inside): string | undefined {
  for (const [k, side] of SIDES.entries()) {
    const low = p.at[k]! - p.size[k]! / 2;
    const high = p.at[k]! + p.size[k]! / 2;
    const floor = side === up ? 0 : treat.clearance;
    if (!(low >= floor - SLACK)) return `is ${low} from the start of the ${side}`;
    if (!(high <= inside[side] - treat.clearance + SLACK))
      return `is ${inside[side] - high} from the end of the ${side}`;
  }
  return undefined;
}

/** Between the surfaces of two pieces, by another way than they were placed: balls and rounds with
 *  one axis by their middles, anything else by the boxes around them. */
export function distanceOf(p: Place, q: Place): number {
  const apart = p.at.map((v, k) => Math.abs(v - q.at[k]!)) as unknown as Triple;
  const gaps = apart.map((v, k) => v - (p.size[k]! + q.size[k]!) / 2);
  const isBall = (o: Place) =>
    o.axis === undefined && near(o.size[0], o.size[1]) && near(o.size[1], o.size[2]);
  if (isBall(p) && isBall(q)) return Math.max(Math.hypot(...apart) - p.size[0], Math.max(...gaps));
  const axis = p.axis && p.axis === q.axis ? SIDES.indexOf(p.axis) : -1;
  if (axis < 0) return fromBoxes(gaps);
  const d = p.size[(axis + 1) % 3]!;
  const level = Math.hypot(apart[(axis + 1) % 3]!, apart[(axis + 2) % 3]!) - d;
  return fromBoxes([level, gaps[axis]!]);
}

/** Gaps along several directions: apart along any is apart; negative along all is an overlap. */
function fromBoxes(gaps: readonly number[]): number {
  const open = gaps.filter(g => g > 0);
  return open.length > 0 ? Math.hypot(...open) : Math.max(...gaps);
}
