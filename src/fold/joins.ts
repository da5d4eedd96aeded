/** Whether everything that must meet in the closed box does. */
import {
  distance,
  distanceToPath,
  endOf,
  flatten,
  lerp,
  partOf,
  pathLength,
  reverse,
} from '../geom/index.js';
import type { Closure, EdgeRef, Hinge, Join, Net, Path, Point } from '../model.js';
import { CLOSE_MM, FOLD_FACET_MM, SAME_POINT_MM } from '../units/tolerances.js';
import type { Curl } from './bend.js';
import { depthIn, type Face, hullOf, innerPoints } from './face.js';
import type { Finding } from './finding.js';
import { isStraight, nearestOn, type PanelPose, type Pose, place, reachOf } from './pose.js';
import { distance3 } from './space.js';

/** Points compared along two edges that must meet. */
const EDGE_PROBES = 17;

export interface Closed {
  readonly net: Net;
  readonly faces: ReadonlyMap<string, Face>;
  readonly pose: Pose;
}

export function joinFindings(box: Closed): Finding[] {
  return box.net.joins.flatMap(j => {
    if (j.kind === 'edge' || j.kind === 'lock') return edgeFindings(box, j);
    return 'along' in j.a ? hookFindings(box, j, j.a) : layFindings(box, j);
  });
}

/** A panel that lies on another: every point of it over the other's paper, at the distance due. */
function layFindings({ net, faces, pose }: Closed, join: Join): Finding[] {
  const { kind, gap = net.thickness } = join;
  const panels = [join.a.panel, join.b.panel];
  const [a, b] = panels.map(id => pose.get(id)!) as [PanelPose, PanelPose];
  const face = faces.get(join.a.panel)!;
  const onto = faces.get(join.b.panel)!;
  // What is tucked in behind a notch or a window is still behind the panel.
  const target = kind === 'tuck' ? hullOf(onto) : onto;
  let off = { by: 0, at: face.loops[0]![0]! };
  let out = { by: 0, at: off.at };
  // A tab's fold takes a thickness of it before it lies flat, a fold right over half of its roll
  // (π/2 of the lift): that much need not be covered.
  const folds = net.hinges
    .filter(h => h.child === join.a.panel)
    .map(h => ({ ...h, takes: Math.max(net.thickness, (Math.PI / 4) * (h.lift ?? 0)) }));
  const inFold = (p: Point) =>
    Math.max(
      0,
      ...folds.filter(f => distanceToPath(p, f.along) <= f.takes + SAME_POINT_MM).map(f => f.takes),
    );
  // A strip that is glued to its own other end: its near end is nearer.
  const own = folds.find(h => h.parent === join.b.panel);
  const farHalf = own && b.curl ? awayFrom(b.curl, b.panel.outline, own.along) : undefined;
  const curled = (a.curl ?? b.curl) !== undefined;
  const rim = face.loops.flatMap(l => (curled ? densely(l, true) : l));
  for (const p of [...rim, ...innerPoints(face)]) {
    const n = nearestOn(b, place(a, p), farHalf);
    const far = Math.abs(n.height) - gap;
    const by = kind === 'glue' ? Math.abs(far) : Math.max(0, far);
    if (!(by <= off.by)) off = { by, at: p };
    const beyond = -depthIn(target, n.at) - inFold(p);
    if (!(beyond <= out.by)) out = { by: beyond, at: p };
  }
  const verb = kind === 'glue' ? 'glued onto' : 'tucked behind';
  const findings: Finding[] = [];
  if (!(off.by <= CLOSE_MM)) {
    findings.push({
      law: 'join',
      panels,
      where: off.at,
      measured: off.by,
      allowed: CLOSE_MM,
      message: `${panels[0]} is to be ${verb} ${panels[1]}, ${mm(gap)} away, and is out by ${mm(off.by)}`,
    });
  }
  if (!(out.by <= CLOSE_MM)) {
    findings.push({
      law: 'join',
      panels,
      where: out.at,
      measured: out.by,
      allowed: CLOSE_MM,
      message: `${panels[0]}, ${verb} ${panels[1]}, reaches ${mm(out.by)} past its edge`,
    });
  }
  return findings;
}

/** An edge that hooks in over another panel: on that panel's paper, inside the box. */
function hookFindings({ net, faces, pose }: Closed, join: Join, edge: EdgeRef): Finding[] {
  const { gap = net.thickness } = join;
  const panels = [edge.panel, join.b.panel];
  const [a, b] = panels.map(id => pose.get(id)!) as [PanelPose, PanelPose];
  const onto = faces.get(join.b.panel)!;
  const found = offOutline(edge, a);
  let worst = { by: 0, at: edge.along.start };
  for (const at of probes(edge.along)) {
    const n = nearestOn(b, place(a, at));
    const by = Math.max(-depthIn(onto, n.at), n.height - gap, -n.height);
    if (!(by <= worst.by)) worst = { by, at };
  }
  if (worst.by <= CLOSE_MM) return found;
  return [
    ...found,
    {
      law: 'join',
      panels,
      where: worst.at,
      measured: worst.by,
      allowed: CLOSE_MM,
      message: `an edge of ${panels[0]} is to hook in over ${panels[1]} and is out by ${mm(worst.by)}`,
    },
  ];
}

/** The half of a curled panel that is farther from a hinge, by its reaches. */
function awayFrom(curl: Curl, outline: Path, hinge: Path): readonly [number, number] {
  const [from, to] = reachOf(curl, outline);
  const middle = (from + to) / 2;
  return curl.reach(hinge.start) > middle ? [from, middle] : [middle, to];
}

/** Two edges that meet, point for point, in whichever direction they fit better. */
function edgeFindings({ pose }: Closed, join: Extract<Join, { kind: 'edge' | 'lock' }>): Finding[] {
  const { a, b, gap = 0 } = join;
  const panels = [a.panel, b.panel];
  const findings = [a, b].flatMap(ref => offOutline(ref, pose.get(ref.panel)!));
  const apart = (path: Path) => worstGap(pose, a, { panel: b.panel, along: path }, gap);
  const [same, back] = [apart(b.along), apart(reverse(b.along))];
  const worst = back.by < same.by ? back : same;
  const how = gap > 0 ? `, ${mm(gap)} apart,` : '';
  if (!(worst.by <= CLOSE_MM)) {
    findings.push({
      law: 'join',
      panels,
      where: worst.at,
      measured: worst.by,
      allowed: CLOSE_MM,
      message: `the edges of ${panels.join(' and ')} must meet${how} and are out by ${mm(worst.by)}`,
    });
  }
  return findings;
}

/** An edge lies on the outline of its panel, or on one of its holes or slits. */
function offOutline(edge: EdgeRef, { panel }: PanelPose): Finding[] {
  const slits = panel.strokes.filter(s => s.operation === 'cut').map(s => s.path);
  const points = probes(edge.along);
  const offFrom = (path: Path) => Math.max(...points.map(p => distanceToPath(p, path)));
  const off = Math.min(...[panel.outline, ...panel.holes, ...slits].map(offFrom));
  if (off <= SAME_POINT_MM) return [];
  return [
    {
      law: 'join',
      panels: [edge.panel],
      where: edge.along.start,
      measured: off,
      allowed: SAME_POINT_MM,
      message: `an edge that must meet another is ${mm(off)} off the outline of ${edge.panel}`,
    },
  ];
}

/** On curled paper a straight edge is curved too: points no further apart than this are compared. */
const STEP_MM = 1;
function densely(points: readonly Point[], closed: boolean): Point[] {
  const ends = closed ? [...points, points[0]!] : points;
  return ends.flatMap((p, i) => {
    const q = ends[i + 1];
    if (!q) return closed ? [] : [p];
    const n = Math.max(1, Math.ceil(distance(p, q) / STEP_MM));
    return Array.from({ length: n }, (_, k) => lerp(p, q, k / n));
  });
}

function probes(path: Path): Point[] {
  const whole = pathLength(path);
  const inner = Array.from({ length: EDGE_PROBES - 2 }, (_, i) => {
    return partOf(path, 0, (whole * (i + 1)) / (EDGE_PROBES - 1));
  });
  return [path.start, ...inner.map(endOf), endOf(path)];
}

function worstGap(pose: Pose, a: EdgeRef, b: EdgeRef, gap: number) {
  const [p, q] = [pose.get(a.panel)!, pose.get(b.panel)!];
  const theirs = probes(b.along);
  return probes(a.along).reduce(
    (worst, at, i) => {
      const by = Math.abs(distance3(place(p, at), place(q, theirs[i]!)) - gap);
      return by <= worst.by ? worst : { by, at };
    },
    { by: 0, at: a.along.start },
  );
}

/**
 * Hinges that bend. Where both panels say how, they must still share every point of it when the box
 * is closed. A flat tooth on a curled wall holds the wall straight at its foot: there the two ends of
 * the hinge must stay as far apart as it is long.
 */
export function curveFindings({ pose }: Closed, hinges: readonly Hinge[]): Finding[] {
  return hinges.flatMap(h => {
    const [a, b] = [pose.get(h.parent)!, pose.get(h.child)!];
    const tooth = isStraight(h.along) && Boolean(a.curl) !== Boolean(b.curl);
    const { by, at } = tooth ? shortened(a.curl ? a : b, h.along) : parted(a, b, h.along);
    if (by <= CLOSE_MM) return [];
    return [
      {
        law: 'curve',
        panels: [h.parent, h.child],
        where: at,
        measured: by,
        allowed: CLOSE_MM,
        message: `${h.parent} and ${h.child} come apart along their curved fold by ${mm(by)}`,
      } satisfies Finding,
    ];
  });
}

function parted(a: PanelPose, b: PanelPose, along: Path) {
  let by = 0;
  let at = along.start;
  for (const p of densely(flatten(along, FOLD_FACET_MM), false)) {
    const d = distance3(place(a, p), place(b, p));
    if (!(d <= by)) [by, at] = [d, p];
  }
  return { by, at };
}

function shortened(curled: PanelPose, along: Path) {
  const [from, to] = [along.start, endOf(along)];
  const chord = distance3(place(curled, from), place(curled, to));
  return { by: Math.abs(distance(from, to) - chord), at: from };
}

/** Both halves of a closure lie on paper, face to face. */
export function closureFindings({ net, faces, pose }: Closed): Finding[] {
  // Between the halves there is no more than one layer of paper beside their own two.
  const allowed = 2 * net.thickness + CLOSE_MM;
  return net.closures.flatMap((c: Closure) => {
    const mate = nearestOn(pose.get(c.b)!, place(pose.get(c.a)!, c.at));
    const panels = [c.a, c.b];
    const room = Math.min(depthIn(faces.get(c.a)!, c.at), depthIn(faces.get(c.b)!, mate.at));
    const findings: Finding[] = [];
    if (!(room >= c.diameter / 2)) {
      findings.push({
        law: 'closure',
        panels,
        where: c.at,
        measured: room,
        allowed: c.diameter / 2,
        message: `a closure dot of ${mm(c.diameter)} between ${panels.join(' and ')} reaches past the paper`,
      });
    }
    const by = Math.abs(mate.height);
    if (!(by <= allowed)) {
      findings.push({
        law: 'closure',
        panels,
        where: c.at,
        measured: by,
        allowed,
        message: `the halves of a closure on ${panels.join(' and ')} are ${mm(by)} apart`,
      });
    }
    return findings;
  });
}

export const mm = (n: number): string => `${Number(n.toFixed(3))} mm`;
