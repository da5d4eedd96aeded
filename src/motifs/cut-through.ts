/** Cut-outs: the outline of one motif cut through a layer of another, so that the next layer shows. */
import { find, type Motif, type MotifTools, motifNamed } from '../contracts.js';
import {
  bounds,
  clockwise,
  compose,
  counterClockwise,
  endOf,
  rotation,
  transform,
  translation,
  windingOf,
} from '../geom/index.js';
import type { CutOutSpec, Layer, Path } from '../model.js';
import { ParamError } from '../params.js';
import { narrowPlace } from './least-width.js';
import { motifOutline } from './outline.js';

/**
 * The layers with every cut-out made, in order. Lines that begin or end in an opening are left out.
 * Throws `ParamError` for a motif or a layer that is not there, and for an opening that does not lie
 * within its layer, `least` mm from its edges and its other openings.
 */
export function cutThrough(
  layers: readonly Layer[],
  cutOuts: readonly CutOutSpec[],
  motifs: readonly Motif[],
  tools: MotifTools,
  least: number,
): readonly Layer[] {
  return cutOuts.reduce((all, spec) => {
    const target = spec.through === undefined ? all.at(-1) : find(all, spec.through);
    if (!target) {
      const names = all.map(l => l.id).join(', ');
      throw new ParamError('through', spec.through ?? '', `one of ${names}`, 'name one of these');
    }
    const pierced = cutOne(target, openingOf(spec, motifs, tools), spec, least);
    return all.map(l => (l === target ? pierced : l));
  }, layers);
}

function openingOf(spec: CutOutSpec, motifs: readonly Motif[], tools: MotifTools): Path {
  const motif = motifNamed(motifs, spec.motif, tools);
  if (!motif) {
    const names = motifs.map(m => m.id).join(', ');
    throw new ParamError('motif', spec.motif, `one of ${names}`, 'choose one of these');
  }
  const outline = motifOutline(motif, spec.values, tools);
  return transform(outline, compose(translation(...spec.at), rotation(spec.turn)));
}

function cutOne(layer: Layer, opening: Path, spec: CutOutSpec, least: number): Layer {
  const holes = [...layer.holes, clockwise(opening)];
  const onPaper = windingOf(counterClockwise(layer.outline), ...layer.holes.map(clockwise));
  const ends = [opening.start, ...opening.segments.map(s => s.to)];
  const [b, o] = [bounds(opening), bounds(layer.outline)];
  const within = b.minX > o.minX && b.maxX < o.maxX && b.minY > o.minY && b.maxY < o.maxY;
  const narrow =
    within && ends.every(p => onPaper(p) !== 0) ? narrowPlace({ ...layer, holes }, least) : 'edge';
  if (narrow !== undefined) {
    throw new ParamError(
      'cut-outs',
      spec.motif,
      `inside the layer "${layer.id}", at least ${least} mm wide and as far from its edges and its ` +
        'other openings',
      'make it smaller or larger, or move it with "at"',
    );
  }
  const open = windingOf(opening);
  const strokes = layer.strokes.filter(
    ({ path }) => open(path.start) === 0 && open(endOf(path)) === 0,
  );
  return { ...layer, holes, strokes };
}
