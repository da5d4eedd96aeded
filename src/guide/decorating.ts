/** What is glued on each face, in stacking order, with the face as one looks at it. */
import { apply, bounds, compose, flatten, rotation, scaling, transform } from '../geom/index.js';
import type { FoldedView } from '../guide-model.js';
import type { Affine, Decal, Net, SeenPart } from '../model.js';
import type { GuideAsk } from './ask.js';
import type { DecoratingStep, LayerRow } from './facts.js';
import { partOf } from './names.js';
import { viewOf } from './steps.js';

/** Curves of a panel's outline in a picture, mm. */
const FLAT_MM = 0.1;
/** A face that looks at the lamp: its papers are seen in their own colours. */
const LIT = 0.75;
const TABLE = '#f7f0e4';
/** Left free round a decoration that lies on nothing, mm. */
const AROUND_MM = 4;

export function decoratingOf(ask: GuideAsk): DecoratingStep[] {
  const faces = new Map<string, Decal[]>();
  for (const d of ask.decals) {
    const key = `${d.net}/${d.panel}/${d.side}`;
    faces.set(key, [...(faces.get(key) ?? []), d]);
  }
  const several = ask.cut.length > 1;
  return [...faces.values()].map(decals => {
    const [{ net: id, panel, side }] = decals as [Decal, ...Decal[]];
    const cut = ask.cut.find(c => c.net.id === id);
    return {
      ...(several && cut && { part: partOf(cut.net) }),
      panel,
      face: side,
      layers: layersOf(decals),
      view: faceView(ask, cut?.net, decals),
    };
  });
}

/** Copies of a piece are one layer. */
function layersOf(decals: readonly Decal[]): LayerRow[] {
  const rows = new Map<string, LayerRow>();
  for (const { piece, lift } of decals) {
    const before = rows.get(piece.id);
    rows.set(piece.id, { name: piece.name, lift, copies: (before?.copies ?? 0) + 1 });
  }
  return [...rows.values()];
}

function faceView(ask: GuideAsk, net: Net | undefined, decals: readonly Decal[]): FoldedView {
  const [first] = decals;
  const seen: Affine = first!.side === 'outside' && net ? scaling(-1, 1) : scaling(1, 1);
  const at = compose(uprightTurn(seen, decals), seen);
  const panel = net?.panels.find(p => p.id === first!.panel);
  const outline = panel ? flatten(panel.outline, FLAT_MM) : groundOf(decals);
  const part: SeenPart = {
    net: first!.net,
    panel: first!.panel,
    side: first!.side,
    polygon: outline.map(p => apply(at, p)),
    edges: outline.map(() => panel !== undefined),
    light: LIT,
    at,
  };
  const view = viewOf(ask, { parts: [part] }, { decals });
  return net ? view : { ...view, paper: { '': TABLE } };
}

/** The quarter turn by which most of what lies there stands upright. */
function uprightTurn(seen: Affine, decals: readonly Decal[]): Affine {
  let [x, y] = [0, 0];
  for (const { at, piece } of decals) {
    const m = compose(seen, at);
    // Overlays have no way up of their own: they weigh as little as their number.
    const weight = piece.art && !piece.strokes.length ? 0.5 : 1;
    x += weight * m[2];
    y += weight * m[3];
  }
  const quarters = Math.round(Math.atan2(x, y) / (Math.PI / 2));
  return rotation((quarters * Math.PI) / 2);
}

/** What lies on nothing is seen on a table. */
function groundOf(decals: readonly Decal[]) {
  const b = bounds(...decals.map(d => transform(d.piece.outline, d.at)));
  const [x0, y0] = [b.minX - AROUND_MM, b.minY - AROUND_MM];
  const [x1, y1] = [b.maxX + AROUND_MM, b.maxY + AROUND_MM];
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const;
}
