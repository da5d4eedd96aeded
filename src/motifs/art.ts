/** Printed art for one piece: a pattern cut to the piece's outline and the bleed around it. */
import { find } from '../contracts.js';
import { bounds, clipShapes } from '../geom/index.js';
import type { Art, ArtSpec, Fill, Path } from '../model.js';
import { fillParams, ParamError } from '../params.js';
import { outwardOf } from './backing.js';
import { PATTERNS } from './patterns/index.js';
import { seeded } from './random.js';

/** The paper's own colour: a printer lays no ink for it. */
const UNPRINTED = '#ffffff';

/**
 * The pattern asked for, over `outline` and `bleed` mm beyond it on every side, so that a cut
 * which strays still ends in ink. Throws `ParamError` for a pattern, a value or a palette that
 * cannot be used. The same seed gives the same art.
 */
export function artFor(spec: ArtSpec, outline: Path, bleed: number): Art {
  const pattern = find(PATTERNS, spec.pattern);
  if (!pattern) {
    const names = PATTERNS.map(p => p.id).join(', ');
    throw new ParamError('pattern', spec.pattern, `one of ${names}`, 'choose one of these');
  }
  const bad = spec.palette.find(colour => !/^#[0-9a-f]{6}$/i.test(colour));
  if (bad !== undefined || spec.palette.length < 2) {
    throw new ParamError(
      'palette',
      bad ?? spec.palette.join(' '),
      'a ground and at least one ink, each as #rrggbb',
      'choose a palette from the list or give two colours or more',
    );
  }
  const edge = outwardOf(outline, bleed);
  const values = fillParams(pattern.params, spec.values);
  const fills = pattern.build(values, bounds(edge), spec.palette, seeded(spec.seed));
  return { ground: spec.palette[0]!, fills: clipped(fills, edge), bleed: edge };
}

/** Art of a layer's own printed shapes, over a pattern when there is one; `undefined` when
 *  nothing is printed. */
export function printed(
  fills: readonly Fill[],
  spec: ArtSpec | undefined,
  outline: Path,
  bleed: number,
): Art | undefined {
  const art = spec && artFor(spec, outline, bleed);
  if (fills.length === 0) return art;
  const under = art ?? { ground: UNPRINTED, fills: [], bleed: outwardOf(outline, bleed) };
  return { ...under, fills: [...under.fills, ...clipped(fills, under.bleed)] };
}

/** Fills cut to an edge; those that leave nothing are dropped. */
function clipped(fills: readonly Fill[], edge: Path): Fill[] {
  return fills
    .map(f => ({ colour: f.colour, regions: clipShapes(f.regions, edge) }))
    .filter(f => f.regions.length > 0);
}
