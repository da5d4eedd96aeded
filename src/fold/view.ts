/**
 * What is seen of a folded box from one side, in the order in which to paint it: a binary space
 * partition of the faces (Fuchs, Kedem & Naylor, SIGGRAPH 1980), so that overlap is right even
 * where faces touch or pass one another. Orthographic: a face stays an affine image of its panel,
 * so curves drawn on it stay curves.
 */
import earcut from 'earcut';

export type Point3 = readonly [x: number, y: number, z: number];

/** A flat face in space. Its front is the side from which `outline` runs counter-clockwise. */
export interface SolidFace {
  readonly id: string;
  readonly outline: readonly Point3[];
  readonly holes: readonly (readonly Point3[])[];
  /** Sides that are not the paper's edge, by loop (the outline first) and side: `edges` of their
   *  fragments is false. Facets of one curled panel hide where they join. */
  readonly hidden?: (loop: number, side: number) => boolean;
}

/** Where the eye is: `azimuth` turns about the upright axis, `elevation` lifts it (radians). */
export interface ViewPoint {
  readonly azimuth: number;
  readonly elevation: number;
}

/** A convex part of a face, on the picture plane (x right, y up), to paint over those before it. */
export interface Fragment {
  readonly face: string;
  /** Whether the front or the back of the face is seen. */
  readonly side: 'front' | 'back';
  readonly polygon: readonly (readonly [number, number])[];
  /** `edges[i]`: polygon side i → i + 1 is part of the face's outline, not a cut of ours. */
  readonly edges: readonly boolean[];
  /** Cosine of the angle between the seen side's normal and the light, −1 to 1. */
  readonly light: number;
}

const sub3 = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot3 = (a: Point3, b: Point3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross3 = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit3 = (a: Point3): Point3 => {
  const l = Math.hypot(...a);
  return l > 0 ? [a[0] / l, a[1] / l, a[2] / l] : [0, 0, 0];
};

/** Unit normal of a loop by Newell's method: sound for concave loops and nearly flat ones. */
export function loopNormal(loop: readonly Point3[]): Point3 {
  let n: Point3 = [0, 0, 0];
  for (let i = 0; i < loop.length; i++) {
    const c = cross3(loop[i]!, loop[(i + 1) % loop.length]!);
    n = [n[0] + c[0], n[1] + c[1], n[2] + c[2]];
  }
  return unit3(n);
}

/** The picture plane's axes and the direction toward the eye. */
export function viewAxes({ azimuth, elevation }: ViewPoint): {
  right: Point3;
  up: Point3;
  toEye: Point3;
} {
  const ca = Math.cos(azimuth);
  const sa = Math.sin(azimuth);
  const ce = Math.cos(elevation);
  const se = Math.sin(elevation);
  return {
    right: [-sa, ca, 0],
    up: [-se * ca, -se * sa, ce],
    toEye: [ce * ca, ce * sa, se],
  };
}

export function project(p: Point3, view: ViewPoint): [number, number] {
  const { right, up } = viewAxes(view);
  return [dot3(p, right), dot3(p, up)];
}

interface Part {
  readonly face: string;
  readonly normal: Point3;
  readonly offset: number;
  readonly points: readonly Point3[];
  readonly edges: readonly boolean[];
}

interface Node {
  readonly plane: Part;
  readonly inPlane: Part[];
  front: Node | undefined;
  back: Node | undefined;
}

/** A face as triangles that know which of their sides are the face's own outline. */
function triangles(face: SolidFace): Part[] {
  const normal = loopNormal(face.outline);
  if (!(Math.hypot(...normal) > 0)) return [];
  const axis: Point3 = Math.abs(normal[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
  const u = unit3(cross3(normal, axis));
  const v = cross3(normal, u);
  const loops = [face.outline, ...face.holes];
  const points: Point3[] = loops.flat();
  const flat = points.flatMap(p => [dot3(p, u), dot3(p, v)]);
  const starts: number[] = [];
  let at = 0;
  for (const loop of loops) {
    starts.push(at);
    at += loop.length;
  }
  const outlineSides = new Set<string>();
  loops.forEach((loop, k) => {
    loop.forEach((_, i) => {
      if (face.hidden?.(k, i)) return;
      const a = starts[k]! + i;
      const b = starts[k]! + ((i + 1) % loop.length);
      outlineSides.add(`${Math.min(a, b)} ${Math.max(a, b)}`);
    });
  });
  const index = earcut(flat, starts.slice(1), 2);
  const parts: Part[] = [];
  for (let i = 0; i < index.length; i += 3) {
    const t = [index[i]!, index[i + 1]!, index[i + 2]!];
    const loop = t.map(k => points[k]!);
    const turn = dot3(cross3(sub3(loop[1]!, loop[0]!), sub3(loop[2]!, loop[0]!)), normal);
    const order = turn < 0 ? [t[0]!, t[2]!, t[1]!] : t;
    const sides = order.map((a, j) => {
      const b = order[(j + 1) % 3]!;
      return outlineSides.has(`${Math.min(a, b)} ${Math.max(a, b)}`);
    });
    const corners = order.map(k => points[k]!);
    parts.push({
      face: face.id,
      normal,
      offset: dot3(normal, face.outline[0]!),
      points: corners,
      edges: sides,
    });
  }
  return parts;
}

/** Cuts a convex part by a plane: what lies in front, behind and in it. */
function split(part: Part, plane: Part, near: number): { front?: Part; back?: Part; on?: Part } {
  const side = part.points.map(p => dot3(plane.normal, p) - plane.offset);
  const ahead = side.some(s => s > near);
  const behind = side.some(s => s < -near);
  if (!ahead && !behind) return { on: part };
  if (!behind) return { front: part };
  if (!ahead) return { back: part };
  const take = (sign: 1 | -1): Part => {
    const points: Point3[] = [];
    const edges: boolean[] = [];
    const n = part.points.length;
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const a = part.points[i]!;
      const b = part.points[j]!;
      const sa = side[i]! * sign;
      const sb = side[j]! * sign;
      const inA = sa >= -near;
      const inB = sb >= -near;
      if (inA) {
        points.push(a);
        edges.push(part.edges[i]!);
      }
      if (inA !== inB) {
        // A corner within `near` of the plane is kept though it may lie beyond: the cut is there.
        const t = Math.min(1, Math.max(0, sa / (sa - sb)));
        points.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]);
        // Leaving: the side just begun is cut short and the next one is the plane's.
        edges.push(inA ? false : part.edges[i]!);
      }
    }
    return { ...part, points, edges };
  };
  return { front: take(1), back: take(-1) };
}

function partition(parts: readonly Part[], near: number): Node | undefined {
  const [plane, ...rest] = parts;
  if (!plane) return undefined;
  const node: Node = { plane, inPlane: [plane], front: undefined, back: undefined };
  const front: Part[] = [];
  const back: Part[] = [];
  for (const part of rest) {
    const cut = split(part, plane, near);
    if (cut.on) node.inPlane.push(cut.on);
    if (cut.front) front.push(cut.front);
    if (cut.back) back.push(cut.back);
  }
  node.front = partition(front, near);
  node.back = partition(back, near);
  return node;
}

function* backToFront(node: Node | undefined, toEye: Point3): Generator<Part> {
  if (!node) return;
  const facing = dot3(node.plane.normal, toEye) > 0;
  yield* backToFront(facing ? node.back : node.front, toEye);
  yield* node.inPlane;
  yield* backToFront(facing ? node.front : node.back, toEye);
}

/** From above on the left, in front. */
export const LAMP: Point3 = unit3([-0.3, -0.48, 0.82]);

/** The faces as convex fragments, farthest first, as `solidScene` gives them. */
export const fragments = (
  faces: readonly SolidFace[],
  view: ViewPoint,
  near: number,
  light?: Point3,
): Fragment[] => solidScene(faces, near)(view, light);

/**
 * The faces looked at once, for as many views as are wanted: from each, convex fragments, farthest
 * first. `near` (mm) is the thickness within which a point counts as lying in a plane. Faces in one
 * plane are painted in the order given.
 */
export function solidScene(
  faces: readonly SolidFace[],
  near: number,
): (view: ViewPoint, light?: Point3) => Fragment[] {
  const tree = partition(faces.flatMap(triangles), near);
  return (view, light = LAMP) => seenFrom(tree, view, unit3(light));
}

function seenFrom(tree: Node | undefined, view: ViewPoint, lamp: Point3): Fragment[] {
  const { right, up, toEye } = viewAxes(view);
  const out: Fragment[] = [];
  for (const part of backToFront(tree, toEye)) {
    const facing = dot3(part.normal, toEye);
    if (!(Math.abs(facing) > 1e-9)) continue;
    const seen: Point3 =
      facing > 0 ? part.normal : [-part.normal[0], -part.normal[1], -part.normal[2]];
    out.push({
      face: part.face,
      side: facing > 0 ? 'front' : 'back',
      polygon: part.points.map(p => [dot3(p, right), dot3(p, up)] as const),
      edges: part.edges,
      light: dot3(seen, lamp),
    });
  }
  return out;
}
