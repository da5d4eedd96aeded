/** A round seal: words over and under along its rim, more in the middle. */
import { defineMotif, type MotifTools, type SetText } from '../contracts.js';
import { circle, translation } from '../geom/index.js';
import type { Layer, Path, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { layer, sized, sizeParam } from './layers.js';
import { lettered, letteringParams, movedText, withText } from './lettered.js';
import { scallopedCircle } from './scallops.js';
import { textBounds } from './text/set.js';

/** Capitals of text whose height is not yet known, mm. */
const TRIAL = 10;
/** Capitals take this part of the band that they run in. */
const CAPITAL = 0.58;
/** How far round the words may run, alone and with others opposite. */
const ALONE = (300 * Math.PI) / 180;
const SHARED = (160 * Math.PI) / 180;
/** Words in the middle fill this part of the inner ring's square. */
const MIDDLE = { width: 1.5, height: 0.95 };

export const seal = defineMotif({
  id: 'seal',
  family: 'labels',
  summary: 'a round seal with words along its rim and in its middle',
  params: {
    size: sizeParam(60),
    edge: {
      kind: 'choice',
      default: 'scalloped',
      choices: ['scalloped', 'plain'],
      help: 'its outline',
    },
    scallops: { kind: 'count', default: 28, least: 12, most: 48, help: 'how many arcs' },
    over: { kind: 'text', default: '', longest: 60, help: 'words along the upper rim' },
    under: { kind: 'text', default: '', longest: 60, help: 'words along the lower rim' },
    rimFont: { ...letteringParams.font, default: 'nunito-bold' },
    rim: {
      kind: 'number',
      default: 0.32,
      least: 0.12,
      most: 0.6,
      help: 'breadth of the rim that the words run in, as a part of the radius',
    },
    rings: {
      kind: 'choice',
      default: 'draw',
      choices: ['draw', 'none'],
      help: 'rings drawn on both sides of the words',
    },
    ...letteringParams,
  },
  build(values, tools): readonly Layer[] {
    const { size, edge, scallops, rings } = values;
    const outline = edge === 'plain' ? circle([0, 0], size / 2) : scallopedEdge(scallops, size);
    // Inside the scallops' roots, with a little air.
    const outer = (size / 2) * (edge === 'plain' ? 0.92 : 0.84);
    const inner = outer * (1 - values.rim);
    const drawn = rings === 'draw' ? [outer, inner] : [];
    const strokes = drawn.map((r): Stroke => ({ operation: 'draw', path: circle([0, 0], r) }));
    let front = layer('front', outline, { strokes });
    const both = values.over.trim() !== '' && values.under.trim() !== '';
    for (const side of ['over', 'under'] as const) {
      if (values[side].trim() === '') continue;
      const words = rimWords(tools, values, side, { outer, inner }, both ? SHARED : ALONE);
      front = lettered(front, words, { ...values, font: values.rimFont });
    }
    const box = {
      middle: [0, 0] as const,
      width: MIDDLE.width * inner,
      height: MIDDLE.height * inner,
    };
    return [withText(front, values, box, tools)];
  },
});

/** With a scallop's middle on top, so that it is its own mirror image. */
function scallopedEdge(count: number, size: number): Path {
  return sized(scallopedCircle(count, (155 * Math.PI) / 180), size);
}

function rimWords(
  tools: MotifTools,
  { over, under, rimFont }: Readonly<Record<'over' | 'under' | 'rimFont', string>>,
  side: 'over' | 'under',
  ring: { readonly outer: number; readonly inner: number },
  most: number,
): SetText {
  const text = side === 'over' ? over : under;
  const ask = { text, font: rimFont, spacing: 0.06 };
  const b = textBounds(tools.set({ ...ask, height: TRIAL }));
  const middle = (ring.outer + ring.inner) / 2;
  const band = (ring.outer - ring.inner) * CAPITAL;
  const height = Math.min(band, (most * middle * TRIAL) / (b.maxX - b.minX));
  if (!(height >= 1)) {
    throw new ParamError(
      side,
      text,
      `shorter: the rim holds it with capitals of ${height.toFixed(2)} mm only`,
      'make the seal larger or write less',
    );
  }
  const radius = side === 'over' ? middle - height / 2 : -(middle + height / 2);
  const set = tools.set({ ...ask, height, radius });
  return movedText(set, translation(0, radius));
}
