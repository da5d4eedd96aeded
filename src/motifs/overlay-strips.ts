/** Strips of an overlay: bands of paper across a panel that end where the overlay would. */
import { bounds, intersectRegions, rectangle } from '../geom/index.js';
import type { Bounds, Region, StripSpec } from '../model.js';
import { ParamError } from '../params.js';

/** From one side of a strip to the other, across its length. */
interface Band {
  readonly along: 'x' | 'y';
  readonly from: number;
  readonly to: number;
}

/**
 * The parts of each strip, in the overlay's own frame as seen. A strip keeps the overlay's corners, its
 * windows and its reveal. Throws `ParamError` where nothing of one is on the panel.
 */
export function overlayStrips(
  overlay: Region,
  panel: Bounds,
  strips: readonly StripSpec[],
): readonly (readonly Region[])[] {
  let before: Band | undefined;
  return strips.map((strip, i) => {
    const band = bandOf(strip, panel, before, i + 1);
    before = band;
    const parts = intersectRegions(
      [overlay],
      [{ outer: rectangleOf(strip, band, panel), holes: [] }],
    );
    if (parts.length === 0) {
      throw new ParamError(
        'strips',
        i + 1,
        `a strip on its panel: nothing of strip ${i + 1} is`,
        'change its offset or its width',
      );
    }
    return parts;
  });
}

function bandOf(
  { along, from, offset, width }: StripSpec,
  panel: Bounds,
  before: Band | undefined,
  number: number,
): Band {
  const [low, high] = along === 'x' ? [panel.minY, panel.maxY] : [panel.minX, panel.maxX];
  const start = (at: number): Band => ({ along, from: at, to: at + width });
  switch (from) {
    case 'middle':
      return start((low + high) / 2 + offset - width / 2);
    case 'bottom':
    case 'left':
      return start(low + offset);
    case 'top':
    case 'right':
      return start(high - offset - width);
    default: {
      if (before?.along !== along) {
        throw new ParamError(
          'strips',
          number,
          `a strip that runs the way of the one before: strip ${number} does not`,
          'give it an offset in place of showing',
        );
      }
      return start(before.from + offset);
    }
  }
}

function rectangleOf({ along, length, shift }: StripSpec, { from, to }: Band, panel: Bounds) {
  const [low, high] = along === 'x' ? [panel.minX, panel.maxX] : [panel.minY, panel.maxY];
  // Without a length it runs on past both ends: the overlay's own edge ends it.
  const half = length === undefined ? high - low : length / 2;
  const middle = (low + high) / 2 + shift;
  return along === 'x'
    ? rectangle(middle - half, from, 2 * half, to - from)
    : rectangle(from, middle - half, to - from, 2 * half);
}

/** The box of a panel's outline about its middle. */
export function boxAboutMiddle(outline: Region['outer']): Bounds {
  const b = bounds(outline);
  const [x, y] = [(b.maxX - b.minX) / 2, (b.maxY - b.minY) / 2];
  return { minX: -x, minY: -y, maxX: x, maxY: y };
}
