/** Arrangements moved with their box. */
import { type Arrangement, type Inside, SIDES, type Side, type Triple } from '../model.js';

/** The same pieces in a box that lies on a wall: `from` says which side of the standing arrangement
 *  becomes the box's length, width and height. */
export function laid(a: Arrangement, from: readonly [Side, Side, Side]): Arrangement {
  const index = from.map(side => SIDES.indexOf(side));
  const move = <T>(t: readonly [T, T, T]): [T, T, T] => [
    t[index[0]!]!,
    t[index[1]!]!,
    t[index[2]!]!,
  ];
  const { length, width, height } = a.inside;
  const [l, w, h] = move([length, width, height]);
  return {
    ...a,
    inside: { length: l, width: w, height: h },
    up: SIDES[from.indexOf(a.up)]!,
    places: a.places.map(({ at, size, axis, layer }) => ({
      at: move(at),
      size: move(size),
      ...(axis ? { axis: SIDES[from.indexOf(axis)]! } : {}),
      layer,
    })),
  };
}

/** The same pieces in a box with more room: in the middle of it, on its floor or, where `afloat`,
 *  half way up as well. */
export function placedIn(a: Arrangement, inside: Inside, afloat = false): Arrangement {
  const shift = SIDES.map(s => (s === a.up && !afloat ? 0 : (inside[s] - a.inside[s]) / 2));
  const move = (at: Triple): Triple => [at[0] + shift[0]!, at[1] + shift[1]!, at[2] + shift[2]!];
  return { ...a, inside, places: a.places.map(p => ({ ...p, at: move(p.at) })) };
}

/** Diameter of the upright round box, about the middle of `inside`, that holds all pieces with the
 *  clearance kept. Standing rounds and balls reach out to their rim, anything else to its corners. */
export function roundAbout({ treat, inside, places }: Arrangement): number {
  const reaches = places.map(({ at, size, axis }) => {
    const x = Math.abs(at[0] - inside.length / 2);
    const y = Math.abs(at[1] - inside.width / 2);
    const level = axis === 'height' || treat.shape.kind === 'ball';
    return level ? Math.hypot(x, y) + size[0] / 2 : Math.hypot(x + size[0] / 2, y + size[1] / 2);
  });
  return 2 * (Math.max(0, ...reaches) + treat.clearance);
}
