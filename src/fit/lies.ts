/** How the pieces of a treat may lie. */
import type { Arrangement, Lie, Treat, TreatShape, Triple } from '../model.js';

export interface PieceLie {
  readonly lie: Arrangement['lie'];
  /** On an even face (a block, a pouch, a round on its end), on a curved side with the axis level,
   *  or any way that it rolls. */
  readonly rests: 'even' | 'curved' | 'ball';
  /** Along x, along y and up. An `even` one may turn by a quarter; the axis of a `curved` one runs
   *  along y. */
  readonly size: Triple;
  readonly round: boolean;
}

/** All lies that the treat allows, each once. Lies that its shape does not know change nothing. */
export function liesOf({ shape, lie }: Treat): readonly PieceLie[] {
  const all = allOf(shape);
  if (lie === 'as-measured') return [asMeasured(shape, all)];
  if (lie !== 'any') {
    const allowed = all.filter(l => l.lie === lie);
    if (allowed.length > 0) return allowed;
  }
  return all.filter(
    (l, i) => all.findIndex(o => o.rests === l.rests && o.size[2] === l.size[2]) === i,
  );
}

/** The lies that a shape knows, for messages. */
export const liesKnown = (kind: TreatShape['kind']): readonly Lie[] =>
  kind === 'block' || kind === 'pouch'
    ? ['any', 'flat', 'side', 'upright', 'as-measured']
    : kind === 'ball'
      ? ['any']
      : ['any', 'flat', 'upright', 'as-measured'];

function allOf(shape: TreatShape): readonly PieceLie[] {
  switch (shape.kind) {
    case 'block':
    case 'pouch':
      return evenLies(sidesOf(shape));
    case 'ball': {
      const d = shape.diameter;
      return [{ lie: 'flat', rests: 'ball', size: [d, d, d], round: true }];
    }
    case 'round':
      return roundLies(shape.diameter, shape.height);
    case 'stick':
      return roundLies(shape.diameter, shape.length);
  }
}

/** Sides as they are in the box: a pouch's thickness after it is pressed. */
function sidesOf(shape: Extract<TreatShape, { kind: 'block' | 'pouch' }>): Triple {
  const { length, width, height } = shape;
  return [length, width, shape.kind === 'pouch' ? height * (1 - shape.squash) : height];
}

function evenLies(sides: Triple): PieceLie[] {
  const order = [0, 1, 2].sort((i, j) => sides[i]! - sides[j]!);
  return (['flat', 'side', 'upright'] as const).map((lie, k) => {
    const [w, d] = order.filter((_, i) => i !== k).reverse() as [number, number];
    return { lie, rests: 'even', size: [sides[w]!, sides[d]!, sides[order[k]!]!], round: false };
  });
}

function roundLies(d: number, long: number): PieceLie[] {
  const low = long <= d;
  return [
    { lie: low ? 'flat' : 'upright', rests: 'even', size: [d, d, long], round: true },
    { lie: low ? 'upright' : 'flat', rests: 'curved', size: [d, long, d], round: true },
  ];
}

function asMeasured(shape: TreatShape, all: readonly PieceLie[]): PieceLie {
  const found =
    shape.kind === 'round'
      ? all.find(l => l.rests === 'even')
      : shape.kind === 'stick'
        ? all.find(l => l.rests === 'curved')
        : shape.kind === 'ball'
          ? all[0]
          : all.find(l => l.size[2] === sidesOf(shape)[2]);
  return found!;
}
