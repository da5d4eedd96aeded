/** Where the tip of a blade leaves the drawing, and where it leaves it uncut. */
import { dot, type Path, type Point, steps, tangentAt } from '../geom/index.js';
import type { Drawing } from '../model.js';
import { TIP_MEASURE_MM } from '../units/tolerances.js';
import { chordsOf, joined } from './chords.js';
import { Effort } from './effort.js';
import { Grid } from './grid.js';
import type { TipTrack } from './simulate.js';
import { gatherPlaces, type Spot } from './spots.js';

/** Slighter turns are no corners to look at, sharper ones are points: 30° and 150°. */
const [CORNER_TURN, MOST_TURN] = [Math.PI / 6, (5 * Math.PI) / 6];
/** Chords looked at in all, for drawings of lines heaped on each other. */
const MOST_PLACE_CHORDS = 2e7;
/** Misses nearer to each other than this are one place. */
const REACH_MM = 1;

/** Places where the track leaves the drawing, or leaves some of it uncut, by more than `least` mm; each told at
 *  its worst, the worst first. How far the nearest line is counts, whichever it is. `effort` tells of how many
 *  corners none was looked for. */
export function tipPlaces(
  drawn: readonly Path[],
  tracks: readonly TipTrack[],
  least: number,
  effort = new Effort(MOST_PLACE_CHORDS),
): Spot[] {
  const drawing = joined(drawn.map(path => chordsOf(path, TIP_MEASURE_MM)));
  const track = joined(tracks.map(t => t.xy));
  const far = [
    ...farFrom(track, drawing, least, effort),
    ...farFrom(drawing, track, least, effort),
  ];
  return gatherPlaces(far, REACH_MM, true);
}

/** A corner that the blade must turn at: where the cut turns most, of turns of less than 150°. */
export function cornerOf(drawing: Drawing): Point | undefined {
  const cuts = drawing.layers.filter(l => l.operation === 'cut').flatMap(l => l.paths);
  let [most, at]: [number, Point | undefined] = [CORNER_TURN, undefined];
  for (const path of cuts) {
    let from: readonly [number, number] | undefined;
    for (const step of steps(path)) {
      const enter = tangentAt(step, 0);
      const leave = tangentAt(step, 1);
      if (from) {
        const turn = Math.acos(Math.max(-1, Math.min(1, dot(from, enter))));
        if (turn > most && turn < MOST_TURN) [most, at] = [turn, step.from];
      }
      from = leave;
    }
  }
  return at;
}

/** Corners of one chain that lie further than `least` from another. */
function farFrom(from: Float64Array, to: Float64Array, least: number, effort: Effort): Spot[] {
  const nearest = new Nearest(to, effort);
  const found: Spot[] = [];
  for (let i = 0; i < from.length; i += 2) {
    const [x, y] = [from[i]!, from[i + 1]!];
    if (Number.isNaN(x + y)) continue;
    if (effort.over) {
      effort.stop(i / 2, from.length / 2);
      break;
    }
    const size = nearest.to([x, y]);
    if (size > least && size < Number.POSITIVE_INFINITY) found.push({ at: [x, y], size });
  }
  return found;
}

/** How far points are from a chain of chords. */
class Nearest {
  distance = Number.POSITIVE_INFINITY;
  private readonly grid: Grid | undefined;

  constructor(
    private readonly xy: Float64Array,
    private readonly effort: Effort,
  ) {
    const n = xy.length / 2 - 1;
    this.grid = n > 0 ? new Grid(xy, n) : undefined;
  }

  to([x, y]: Point): number {
    this.distance = Number.POSITIVE_INFINITY;
    this.grid?.around(x, y, Number.POSITIVE_INFINITY, this);
    return this.distance;
  }

  see(j: number, x: number, y: number): void {
    this.effort.spent++;
    const { xy } = this;
    const [x0, y0] = [xy[2 * j]!, xy[2 * j + 1]!];
    const [dx, dy] = [xy[2 * j + 2]! - x0, xy[2 * j + 3]! - y0];
    const size = dx * dx + dy * dy;
    const t = size > 0 ? Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / size)) : 0;
    const off = Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
    if (off < this.distance) this.distance = off;
  }
}
