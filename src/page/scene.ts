/** The papers of one moment as flat faces for the painter: facets of panels, and the pieces on them. */
import type { Facet } from '../fold/facets.js';
import { isSeam } from '../fold/facets.js';
import { filmFacets } from '../fold/films.js';
import { heightSeen } from '../fold/height.js';
import { place } from '../fold/pose.js';
import { moved, type Point3, type Rigid, turned } from '../fold/space.js';
import { type Turn, turnOf } from '../fold/turn.js';
import { type SolidFace, solidScene, type ViewPoint } from '../fold/view.js';
import { apply } from '../geom/index.js';
import type { Affine, Point } from '../model.js';
import type { PreviewDecal, PreviewFacts, PreviewMark } from '../preview-model.js';
import { VIEW_PLANE_MM } from '../units/tolerances.js';
import { STRIPS_MM, type Standee } from './stage.js';

/** A piece lies this far off its panel's middle surface, and each further one a little more, mm: enough
 *  for the painter to tell them apart. */
const OFF_MM = 0.12;
const EACH_MM = 0.025;
/** How far apart the layers are when they are lifted to be looked at, mm. */
export const LIFTED_MM = 7;
/** Room round a piece for its shadow, mm. */
const SHADOW_MM = 1.5;

export type Source =
  | { readonly kind: 'film'; readonly flat: boolean }
  | {
      readonly kind: 'paper';
      readonly facet: Facet;
      readonly stand: Standee;
      /** On a curled panel they are painted with its strips. */
      readonly decals: readonly PreviewDecal[];
      readonly marks: readonly PreviewMark[];
      /** On the table, of a curled strip. */
      readonly turn: Turn | undefined;
      /** Its height over the table, as `heightSeen` says it. */
      height(view: ViewPoint): readonly [number, number, number];
      solid(p: Point): Point3;
    }
  | {
      readonly kind: 'decal';
      readonly decal: PreviewDecal;
      /** How far its shadow falls, mm. */
      readonly fall: number;
      solid(p: Point): Point3;
    };

export interface Scene {
  readonly sources: readonly Source[];
  readonly seen: ReturnType<typeof solidScene>;
}

type Told = Pick<PreviewFacts, 'decals' | 'films' | 'marks' | 'pieces'>;

/** `lifted`, from 0 to 1: how far the layers are lifted off each other. */
export function sceneOf(stood: readonly Standee[], facts: Told, lifted: number): Scene {
  const sources: Source[] = [];
  const faces: SolidFace[] = [];
  const add = (source: Source, face: Omit<SolidFace, 'id'>) => {
    faces.push({ ...face, id: String(sources.length) });
    sources.push(source);
  };
  for (const stand of stood) {
    const { net, poses, facets, world } = stand;
    const out = (p: Point3) => moved(world, p);
    const onNet = facts.decals.filter(d => d.net === net.id);
    const drawn = facts.marks.filter(m => m.net === net.id);
    for (const facet of facets) {
      const { panel } = facet.face;
      const decals = panel.bend ? onNet.filter(d => d.panel === panel.id) : [];
      const [outline, ...holes] = facet.loops.map(l => l.map(out));
      if (!outline) continue;
      const marks = drawn.filter(m => m.panel === panel.id);
      add(
        {
          kind: 'paper',
          facet,
          stand,
          decals,
          marks,
          turn: turnOn(world, facet),
          height: view => heightSeen(turned(world, facet.normal), outline[0]!, view),
          solid: p => out(facet.solid(p)),
        },
        { outline, holes, hidden: (loop, side) => isSeam(facet, loop, side) },
      );
    }
    for (const posed of poses) {
      for (const film of facts.films) {
        if (film.net !== net.id || film.panel !== posed.panel.id) continue;
        for (const facet of filmFacets(film, posed, STRIPS_MM)) {
          const [outline] = facet.loops.map(l => l.map(out));
          const hidden = (loop: number, side: number) => isSeam(facet, loop, side);
          if (outline)
            add({ kind: 'film', flat: facet.curvature === 0 }, { outline, holes: [], hidden });
        }
      }
      if (posed.curl) continue;
      const count = { inside: 0, outside: 0 };
      for (const decal of onNet.filter(d => d.panel === posed.panel.id)) {
        const order = count[decal.side]++;
        const off = OFF_MM + EACH_MM * order + decal.lift + lifted * LIFTED_MM * (order + 1);
        const height = decal.side === 'inside' ? off : -off;
        const solid = (p: Point) => out(place(posed, p, height));
        const corners = cornersOf(facts.pieces[decal.piece]!.box, decal.at).map(solid);
        const fall = decal.lift + lifted * LIFTED_MM;
        // Counter-clockwise as its front is seen: on the outside `at` mirrors.
        add({ kind: 'decal', decal, fall, solid }, { outline: corners, holes: [] });
      }
    }
  }
  return { sources, seen: solidScene(faces, VIEW_PLANE_MM) };
}

function turnOn(world: Rigid, facet: Facet): Turn | undefined {
  const turn = turnOf(facet);
  if (!turn) return undefined;
  const [a, b] = turn.normals.map(n => turned(world, n)) as [Point3, Point3];
  const { from, to, ruling } = turn;
  return {
    from: moved(world, from),
    to: moved(world, to),
    ruling: turned(world, ruling),
    normals: [a, b],
  };
}

function cornersOf([left, bottom, right, top]: readonly number[], at: Affine): Point[] {
  const s = SHADOW_MM;
  const corners: Point[] = [
    [left! - s, bottom! - s],
    [right! + s, bottom! - s],
    [right! + s, top! + s],
    [left! - s, top! + s],
  ];
  return corners.map(p => apply(at, p));
}
