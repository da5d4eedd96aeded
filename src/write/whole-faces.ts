/** The parts of one face brought together, so that it is painted at once and no seam shows. */
import type { Point, SeenPart } from '../model.js';

/** Parts that lie over each other by less do not hide each other: a fraction of a pixel, mm. */
const TOUCH_MM = 0.02;

interface Run {
  readonly parts: SeenPart[];
  readonly boxes: Box[];
  /** About all of them. */
  box: Box;
}
type Box = readonly [minX: number, minY: number, maxX: number, maxY: number];

/**
 * Parts come farthest first, and a face that was cut by what it is near comes in several. Those painted
 * before are put off to the last one that nothing painted in between hides: the picture stays the same,
 * but for the edges of what lies under the face, which would shine through along its cuts.
 */
export function wholeFaces(parts: readonly SeenPart[]): SeenPart[][] {
  const runs: Run[] = [];
  for (const part of parts) {
    const box = boxOf(part.polygon);
    let at = runs.length - 1;
    while (at >= 0 && !sameFace(runs[at]!.parts[0]!, part)) at--;
    const before = runs[at];
    const between = runs.slice(at + 1);
    if (!before || between.some(run => hides(run, before))) {
      runs.push({ parts: [part], boxes: [box], box });
      continue;
    }
    runs.splice(at, 1);
    before.parts.push(part);
    before.boxes.push(box);
    before.box = about([before.box, box]);
    runs.push(before);
  }
  return runs.map(run => run.parts);
}

/**
 * The faces of `wholeFaces` that are strips of one curled panel brought together, where they hide nothing of
 * each other and nothing between hides them: the light is laid over all of them at once.
 */
export function bandsOf(faces: readonly SeenPart[][]): SeenPart[][][] {
  const bands: Run[][] = [];
  for (const parts of faces) {
    const boxes = parts.map(p => boxOf(p.polygon));
    const run: Run = { parts, boxes, box: about(boxes) };
    let at = bands.length - 1;
    while (at >= 0 && !sameBand(bands[at]![0]!.parts[0]!, parts[0]!)) at--;
    const before = bands[at];
    const between = bands.slice(at + 1).flat();
    const free = before && !before.some(under => hides(run, under));
    // The band waits for the strip, or the strip goes before what it does not hide.
    if (free && !before.some(under => between.some(over => hides(over, under))))
      bands.push([...bands.splice(at, 1)[0]!, run]);
    else if (free && !between.some(under => hides(run, under))) before.push(run);
    else bands.push([run]);
  }
  return bands.map(band => band.map(r => r.parts));
}

const sameBand = (a: SeenPart, b: SeenPart): boolean =>
  a.panel === b.panel &&
  a.net === b.net &&
  a.side === b.side &&
  a.lit?.turning !== undefined &&
  b.lit?.turning !== undefined &&
  !a.film &&
  !b.film;

const sameFace = (a: SeenPart, b: SeenPart): boolean =>
  a.panel === b.panel &&
  a.net === b.net &&
  a.side === b.side &&
  a.at.every((v, i) => v === b.at[i]);

function hides(over: Run, under: Run): boolean {
  if (!boxesMeet(over.box, under.box)) return false;
  return under.parts.some((a, i) =>
    over.parts.some(
      (b, j) => boxesMeet(under.boxes[i]!, over.boxes[j]!) && overlap(a.polygon, b.polygon),
    ),
  );
}

function boxOf(polygon: readonly Point[]): Box {
  const xs = polygon.map(p => p[0]);
  const ys = polygon.map(p => p[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

const about = (boxes: readonly Box[]): Box =>
  boxes.reduce((a, b) => [
    Math.min(a[0], b[0]),
    Math.min(a[1], b[1]),
    Math.max(a[2], b[2]),
    Math.max(a[3], b[3]),
  ]);

const boxesMeet = (a: Box, b: Box): boolean =>
  Math.min(a[2], b[2]) - Math.max(a[0], b[0]) > TOUCH_MM &&
  Math.min(a[3], b[3]) - Math.max(a[1], b[1]) > TOUCH_MM;

/** Convex polygons lie over each other unless a side of one of them parts them. */
const overlap = (a: readonly Point[], b: readonly Point[]): boolean =>
  !parted(a, b) && !parted(b, a);

function parted(a: readonly Point[], b: readonly Point[]): boolean {
  return a.some((p, i) => {
    const q = a[(i + 1) % a.length]!;
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (!(long > 0)) return false;
    const [nx, ny] = [(q[1] - p[1]) / long, (p[0] - q[0]) / long];
    const out = (v: Point) => (v[0] - p[0]) * nx + (v[1] - p[1]) * ny;
    // Seen from behind a polygon runs the other way round.
    const own = a.map(out);
    const theirs = b.map(out);
    return (
      Math.min(...theirs) >= Math.max(...own) - TOUCH_MM ||
      Math.max(...theirs) <= Math.min(...own) + TOUCH_MM
    );
  });
}
