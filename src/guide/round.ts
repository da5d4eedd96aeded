/**
 * A box for scoring by hand: built anew so that every score and every edge falls on a mark of the ruler.
 * By hand paper is taken as having no thickness, so the box is built crease to crease; it is made
 * larger by what the papers take, so that what was to fit inside still fits.
 */
import type { BoxStyle } from '../contracts.js';
import { bounds, endOf } from '../geom/index.js';
import type { BoxSpec, HandRounding, Inside, Net, ParamValues } from '../model.js';
import { ParamError, type ParamTable, type Values } from '../params.js';
import { CLOSE_MM, ON_PATH_MM } from '../units/tolerances.js';

/** A side is made longer by this to see which panels go with it, mm. */
const NUDGE_MM = 1;
/** Parameters that are set in turn; a style has about as many lengths. */
const MOST_SET = 8;
/** Weights: a box that does not go together is worse than any number of marks off the ruler's. */
const MOST_OFF = 1000;
const MOST_MM = 1e5;
/** Marks further than this from the ruler's are off, mm: by hand nobody sees a fiftieth. */
const OFF_MM = 0.02;

export interface HandBox {
  readonly spec: BoxSpec;
  readonly values: ParamValues;
  readonly rounding: HandRounding;
}

/** `paper` is its thickness also where the size asked for is crease to crease. Throws `ParamError` (of
 *  `round`) where the style's folds cannot all be brought onto the marks. */
export function roundForHand(
  style: BoxStyle,
  asked: BoxSpec,
  given: ParamValues,
  step: number,
  paper = asked.thickness,
): HandBox {
  const build = (spec: BoxSpec, values: ParamValues) =>
    style.build(spec, values as Values<ParamTable>);
  const thick = build({ inside: asked.inside, thickness: paper }, given);
  const slanted = thick.flatMap(slantedFold)[0];
  if (slanted) throw refused(step, `and ${slanted}`);
  const { inside } = asked;
  const plain = (size: Inside) => build({ inside: size, thickness: 0 }, given);
  const takes = takenByPaper(thick, inside, plain);
  // What goes into a box may not be larger than it; a box not smaller than what goes into it.
  const isInsert = thick[0]?.panels.find(p => p.id === thick[0]!.root)?.role === 'insert';
  const marked = (v: number, more: number) =>
    isInsert
      ? onMark(Math.floor((v + OFF_MM) / step), step)
      : onMark(Math.ceil((v + (asked.thickness > 0 ? more : 0) - OFF_MM) / step), step);
  const sides: Inside = {
    length: marked(inside.length, takes.length),
    width: marked(inside.width, takes.width),
    height: marked(inside.height, takes.height),
  };
  const even = Math.max(sides.length, sides.width);
  const square = inside.length === inside.width ? { length: even, width: even } : {};
  const begin: Try = { inside: { ...sides, ...square }, values: given, set: {} };
  let best = judged(begin, []);
  for (let i = 0; i < MOST_SET && best.cost >= 1; i++) {
    const next = proposals(style.params, best, step).reduce(
      (least, tried) => better(least, attempt(tried, best.marks)),
      best,
    );
    if (next === best) break;
    best = next;
  }
  if (best.cost >= 1) throw offTheMarks(best, step);
  const { inside: creases, values, set } = best.tried;
  const clear = cleared(creases);
  const spec: BoxSpec = { inside: creases, thickness: 0 };
  return { spec, values, rounding: { step, creases, clear, set } };

  function cleared(creases: Inside): Inside {
    return {
      length: creases.length - takes.length,
      width: creases.width - takes.width,
      height: creases.height - takes.height,
    };
  }
  function attempt(tried: Try, was: readonly number[]): Judged | undefined {
    try {
      return judged(tried, was);
    } catch (error) {
      if (error instanceof ParamError || error instanceof RangeError) return undefined;
      throw error;
    }
  }
  /** A mark off the ruler's counts one; how far all are moved decides between equals. */
  function judged(tried: Try, was: readonly number[]): Judged {
    const nets = build({ inside: tried.inside, thickness: 0 }, tried.values);
    const marks = rulerMarks(nets);
    const off = marks.filter(v => offBy(v, step) > OFF_MM);
    const due = build({ inside: cleared(tried.inside), thickness: paper }, given);
    const short = nets.length > 1 ? misfit(nets, due, paper) : 0;
    const moved =
      marks.length === was.length ? marks.map((v, i) => Math.abs(v - was[i]!)) : [MOST_MM];
    const far = Math.min(1, moved.reduce((s, v) => s + v, 0) / MOST_MM) / 2;
    return {
      tried,
      marks,
      off,
      short,
      cost: off.length + (short > 0 ? MOST_OFF + short : 0) + far,
    };
  }
}

interface Try {
  readonly inside: Inside;
  readonly values: ParamValues;
  readonly set: Readonly<Record<string, number>>;
}
interface Judged {
  readonly tried: Try;
  readonly marks: readonly number[];
  readonly off: readonly number[];
  readonly short: number;
  readonly cost: number;
}

const better = (least: Judged, other: Judged | undefined): Judged =>
  other && other.cost < least.cost ? other : least;

/** Sums of marks are not left with a last bit too many. */
const onMark = (n: number, step: number) => Number((n * step).toFixed(9));

const offBy = (v: number, step: number) => Math.abs(v / step - Math.round(v / step)) * step;

const mm = (v: number) => `${Number(v.toFixed(2))} mm`;

const refused = (step: number, why: string) =>
  new ParamError(
    'round',
    step,
    `every fold on a mark of ${mm(step)}, ${why}`,
    'leave round out, or give the parameters in whole marks',
  );

const offTheMarks = ({ off, short }: Judged, step: number): ParamError =>
  refused(
    step,
    short > 0
      ? `but its parts would be too tight for each other, by ${mm(short)} in all`
      : `but a fold or an edge at ${mm(off[0]!)} is on none`,
  );

/** A fold that no ruler marks, in words. */
function slantedFold(net: Net): string[] {
  const curled = net.panels.find(p => p.bend);
  if (curled) return [`${curled.id} is curled`];
  const square = ({ along }: Net['hinges'][number]) => {
    const [a, b] = [along.start, endOf(along)];
    return Math.abs(a[0] - b[0]) <= ON_PATH_MM || Math.abs(a[1] - b[1]) <= ON_PATH_MM;
  };
  const slanted = [...net.hinges, ...(net.ringHinges ?? [])].find(h => !h.soft && !square(h));
  return slanted ? [`the fold of ${slanted.child} is not parallel to an edge`] : [];
}

/**
 * What a ruler is set to: the sides of the blanks, where the scores are from their lower left corners,
 * and how deep each panel is from its fold. All in one order.
 */
const rulerMarks = (nets: readonly Net[]): number[] =>
  nets.flatMap(net => {
    const blank = bounds(...net.panels.map(p => p.outline));
    const sides = [blank.maxX - blank.minX, blank.maxY - blank.minY];
    const folds = net.hinges.flatMap(({ along, child }) => {
      const { minX, minY, maxX, maxY } = bounds(net.panels.find(p => p.id === child)!.outline);
      const [a, b] = [along.start, endOf(along)];
      return Math.abs(a[0] - b[0]) <= ON_PATH_MM
        ? [a[0] - blank.minX, maxX - minX]
        : [a[1] - blank.minY, maxY - minY];
    });
    return [...sides, ...folds];
  });

type Spans = ReadonlyMap<string, readonly [number, number]>;
/** Width and height of every panel in its net's frame. */
const spansOf = (nets: readonly Net[]): Spans =>
  new Map(
    nets.flatMap(net =>
      net.panels.map(p => {
        const b = bounds(p.outline);
        return [`${net.id}/${p.id}`, [b.maxX - b.minX, b.maxY - b.minY]] as const;
      }),
    ),
  );

/**
 * How much longer than a side of the clear space the panels along it are in the box of thick paper: the
 * most of those that grow as the side does. Only the first net: what goes over it is larger again.
 */
function takenByPaper(
  thick: readonly Net[],
  inside: Inside,
  ideal: (inside: Inside) => readonly Net[],
): Inside {
  const first = thick.slice(0, 1);
  const [real, plain] = [spansOf(first), spansOf(ideal(inside))];
  const taken = (side: keyof Inside): number => {
    // Where length and width must be alike they grow together.
    const even = side !== 'height' && inside.length === inside.width;
    const grow = inside[side] + NUDGE_MM;
    const more = spansOf(
      ideal({ ...inside, [side]: grow, ...(even && { length: grow, width: grow }) }),
    );
    let most = 0;
    for (const [id, spans] of real) {
      const [was, grown] = [plain.get(id), more.get(id)];
      if (!was || !grown) continue;
      for (const axis of [0, 1] as const) {
        const goesAlong = Math.abs(grown[axis] - was[axis] - NUDGE_MM) <= ON_PATH_MM;
        const alone = goesAlong && Math.abs(was[axis] - inside[side]) <= ON_PATH_MM;
        if (alone) most = Math.max(most, spans[axis] - was[axis]);
      }
    }
    return most;
  };
  return { length: taken('length'), width: taken('width'), height: taken('height') };
}

/**
 * How far the other nets are from going together with the first, mm in all: those that are larger than it in
 * the box of thick paper go over it and may not be smaller than there, those that are smaller go into
 * it and may not be larger. A thickness is let pass: paper gives.
 */
function misfit(nets: readonly Net[], due: readonly Net[], thickness: number): number {
  const [now, then] = [spansOf(nets), spansOf(due)];
  const [first, ...others] = due.map(net => `${net.id}/${net.root}`);
  let sum = 0;
  for (const root of others) {
    const [has, needs, beside] = [now.get(root), then.get(root), then.get(first!)];
    if (!has || !needs || !beside) continue;
    for (const axis of [0, 1] as const) {
      const goesOver = needs[axis] > beside[axis];
      const by = goesOver ? needs[axis] - has[axis] : has[axis] - needs[axis];
      if (by > thickness + CLOSE_MM) sum += by;
    }
  }
  return sum;
}

/** What could be changed: a length set to the marks on either side of it or of what is off, or to one
 *  of the first; a side made longer by a mark. */
function proposals(table: ParamTable, { tried, off }: Judged, step: number): Try[] {
  const around = (v: number) => [Math.floor(v / step), Math.ceil(v / step)];
  const near = [1, 2, 3, ...off.flatMap(around)];
  const lengths = Object.entries(table).flatMap(([name, spec]) => {
    if (spec.kind !== 'length') return [];
    const own = tried.values[name];
    const counts = new Set(typeof own === 'number' ? [...near, ...around(own)] : near);
    return [...counts]
      .map(n => onMark(n, step))
      .filter(v => v >= spec.least && v <= spec.most)
      .map(
        (v): Try => ({
          ...tried,
          values: { ...tried.values, [name]: v },
          set: { ...tried.set, [name]: v },
        }),
      );
  });
  const longer = (more: Partial<Inside>): Try => ({
    ...tried,
    inside: { ...tried.inside, ...more },
  });
  const { length, width, height } = tried.inside;
  const sides =
    length === width
      ? [longer({ length: length + step, width: width + step })]
      : [longer({ length: length + step }), longer({ width: width + step })];
  return [...lengths, ...sides, longer({ height: height + step })];
}
