/** A person's own drawing, read strictly: what could reach out of the file or run is refused, and so is
 *  what would be left out. */
import { bounds, isFinitePath } from '../geom/index.js';
import type { Convention, Operation, Path } from '../model.js';
import { hexOf } from '../units/colour.js';
import { operationByColour, operationByName } from './operation-of.js';
import { ReadError } from './read-error.js';
import { walkSvg } from './svg-walk.js';

/** More is no drawing for a treat box, and would be cut for an hour. */
const MOST_SEGMENTS = 20_000;
/** A drawing may be made large and scaled down, within reason. */
const MOST_MM = 1e5;

export interface OwnLine {
  readonly path: Path;
  /** Its stroke's, or its fill's where it has no stroke; `#rrggbb`. */
  readonly colour: string | undefined;
  /** Ids of it and of the groups around it, the innermost first. */
  readonly names: readonly string[];
  /** What its group's name says, or its colour by the convention. */
  readonly operation: Operation | undefined;
}

/** Throws `ReadError` with what is wrong, where, and what to do. */
export function readOwnSvg(source: string, convention?: Convention): OwnLine[] {
  const lines: OwnLine[] = [];
  let segments = 0;
  walkSvg(
    source,
    { strict: true, mostSegments: MOST_SEGMENTS },
    {
      draw({ path, stroke, fill, names, where }) {
        segments += path.segments.length;
        if (segments > MOST_SEGMENTS) {
          throw new ReadError(
            `more than ${MOST_SEGMENTS} segments`,
            where,
            'simplify the drawing: a treat box has room for a few hundred',
          );
        }
        checkPlace(path, where);
        const colour = hexOf(stroke === undefined || stroke === 'none' ? fill : stroke);
        const named = names.map(operationByName).find(o => o !== undefined);
        const operation = named ?? operationByColour(colour, convention);
        lines.push({ path, colour, names, operation });
      },
      // Hidden elements, and shapes without stroke or fill, show nothing: nothing is lost.
      note() {},
    },
  );
  return lines;
}

function checkPlace(path: Path, where: string): void {
  const b = isFinitePath(path) && bounds(path);
  if (b && Math.max(-b.minX, -b.minY, b.maxX, b.maxY) <= MOST_MM) return;
  throw new ReadError(
    'a coordinate that is no number, or is far off any sheet',
    where,
    'redraw this path',
  );
}
