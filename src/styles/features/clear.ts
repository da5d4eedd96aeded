/** Whether what is cut leaves the panel whole: clear of its edges, folds, glue and other openings. */
import type { FeatureAsk } from '../../contracts.js';
import {
  bounds,
  circle,
  contains,
  distanceToPath,
  openPath,
  pathsApart,
  pathsOverlap,
  steps,
  transform,
} from '../../geom/index.js';
import type { Affine, GlueArea, Path } from '../../model.js';
import { ParamError } from '../../params.js';
import { LEAST_WIDTH_MM, MEASURE_MM } from '../../units/tolerances.js';

export const mm = (n: number) => `${Number(n.toFixed(2))} mm`;

/** Shared area under this is touching, mm². */
const TOUCH_MM2 = 0.01;

const near = (apart: number, least: number) => !(apart >= least - 2 * MEASURE_MM);

/** A fault of where something is. */
export function misplaced({ at }: FeatureAsk, allowed: string): ParamError {
  const shown = at.map(mm).join(', ');
  return new ParamError('at', shown, allowed, 'move it with at, or make it smaller');
}

/** How wide and high a panel is in a feature's frame. */
export function extentIn(frame: Affine, outline: Path): readonly [width: number, height: number] {
  const [a, b, c, d] = frame;
  // A turn and a mirror: its inverse is its transpose.
  const box = bounds(transform(outline, [a, c, b, d, 0, 0]));
  return [box.maxX - box.minX, box.maxY - box.minY];
}

/** A hole, or a line to be cut, lies within the panel, `least` mm clear of all that it must not
 *  meet. */
export function checkHole(ask: FeatureAsk, path: Path, least = LEAST_WIDTH_MM): void {
  const { net, panel } = ask;
  const inside = contains(panel.outline, path.start) === 'in';
  const apart = pathsApart(path, panel.outline);
  if (!inside || near(apart, least)) {
    const hinge = net.hinges.find(
      h =>
        (h.parent === panel.id || h.child === panel.id) &&
        pathsApart(path, h.along) <= apart + MEASURE_MM,
    );
    const other = hinge && (hinge.parent === panel.id ? hinge.child : hinge.parent);
    const what = other ? `the fold to ${other}` : `the edge of ${panel.id}`;
    throw misplaced(ask, `at least ${mm(least)} inside ${what}`);
  }
  checkOpenings(ask, path, least);
  checkCovered(ask, path);
}

/** Paper taken off at a free edge: `line` is what is cut, `bite` all that is lost. */
export function checkBite(ask: FeatureAsk, line: Path, bite: Path): void {
  checkOpenings(ask, line, LEAST_WIDTH_MM);
  checkCovered(ask, bite);
}

/** A cut that begins and ends on one edge stays clear of all others. */
export function checkOtherEdges(ask: FeatureAsk, line: Path, edge: Path): void {
  const { panel } = ask;
  const own = [...steps(panel.outline)].map(s => openPath(s.from, [s.segment]));
  const others = own.filter(o => !isOn(o, edge));
  if (others.some(o => near(pathsApart(line, o), LEAST_WIDTH_MM))) {
    throw misplaced(ask, `at least ${mm(LEAST_WIDTH_MM)} inside the other edges of ${panel.id}`);
  }
}

const isOn = (part: Path, whole: Path) =>
  [part.start, part.segments[0]!.to].every(p => distanceToPath(p, whole) <= MEASURE_MM) ||
  [whole.start, whole.segments.at(-1)!.to].every(p => distanceToPath(p, part) <= MEASURE_MM);

/** Clear of holes, slits and tear lines of the panel. */
export function checkOpenings(ask: FeatureAsk, path: Path, least: number): void {
  const { panel } = ask;
  const cuts = panel.strokes.filter(s => s.operation === 'cut' || s.operation === 'perforate');
  for (const other of [...panel.holes, ...cuts.map(s => s.path)]) {
    const within = path.closed && other.closed && pathsOverlap(path, other, TOUCH_MM2);
    if (within || near(pathsApart(path, other), least)) {
      throw misplaced(ask, `at least ${mm(least)} clear of another opening of ${panel.id}`);
    }
  }
}

/** Every face that takes glue: of the net's own joints, and where other parts go. */
export const gluedIn = ({ net, facts, seats }: FeatureAsk): readonly GlueArea[] => [
  ...facts.glueAreas(net),
  ...seats,
];

/** Nothing is glued or stuck where paper goes. */
function checkCovered(ask: FeatureAsk, lost: Path): void {
  const { net, panel, facts } = ask;
  for (const half of facts.closureHalves(net).filter(h => h.panel === panel.id)) {
    if (pathsMeet(lost, circle(half.at, half.diameter / 2))) {
      throw misplaced(ask, `clear of the closure dot of ${panel.id}`);
    }
  }
  for (const hook of facts.hooks(net, panel.id)) {
    const meets = pathsApart(lost, hook.line) === 0;
    if (meets || (lost.closed && contains(lost, hook.line.start) === 'in')) {
      throw misplaced(ask, `clear of where ${hook.panel} hooks in over ${panel.id}`);
    }
  }
  for (const glue of gluedIn(ask).filter(g => g.panel === panel.id)) {
    if (glue.area !== panel.outline && pathsMeet(lost, glue.area)) {
      throw misplaced(ask, `clear of where ${glue.onto} is glued to ${panel.id}`);
    }
  }
}

const pathsMeet = (lost: Path, area: Path) =>
  lost.closed ? pathsOverlap(lost, area, TOUCH_MM2) : pathsApart(lost, area) === 0;

/** A panel that is glued on as a whole has no paper to spare. */
export function checkNotGlued(ask: FeatureAsk, what: string): void {
  const { panel } = ask;
  const glue = gluedIn(ask).find(g => g.panel === panel.id && g.area === panel.outline);
  if (glue) {
    throw new ParamError(
      'on',
      panel.id,
      `a panel that shows, and ${panel.id} is glued to ${glue.onto}`,
      `put the ${what} on another panel`,
    );
  }
}
