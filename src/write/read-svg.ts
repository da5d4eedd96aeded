/**
 * Reads SVG to a drawing: our own files exactly, others as far as they hold plain shapes.
 */
import type { Operation } from '../model.js';
import { MM_PER_INCH } from '../units/length.js';
import { operationByColour, operationByName } from './operation-of.js';
import { Gathering, MOST_SEGMENTS, type Reading, type ReadOptions, type Way } from './reading.js';
import type { Page } from './svg-space.js';
import { type Drawn, walkSvg } from './svg-walk.js';

/** Throws `ReadError` with what is wrong, where, and what to do. */
export async function readSvg(source: string, options: ReadOptions = {}): Promise<Reading> {
  const found = new Gathering();
  const page = walkSvg(
    source,
    { mostSegments: MOST_SEGMENTS },
    {
      draw: drawn => found.add(operationOf(drawn, options, found), drawn.path, drawn.where),
      note: words => found.note(words),
    },
  );
  return found.result(options.name ?? '', page.width, page.height, waysOf(page));
}

/** With a size in physical units the other ways are those of software that passes over it. */
function waysOf({ unit, said }: Page): Way[] {
  const byUnits = ([96, 90, 72] as const).map((n): Way => [`${n}`, MM_PER_INCH / n]);
  return said ? [['size', unit], ...byUnits] : byUnits;
}

function operationOf(
  { names, stroke }: Drawn,
  { convention }: ReadOptions,
  found: Gathering,
): Operation {
  for (const name of names) {
    const byName = operationByName(name);
    if (byName) return byName;
  }
  const byColour = operationByColour(stroke, convention);
  if (byColour) return byColour;
  const shown = stroke === undefined || stroke === 'none' ? 'without a stroke' : `of ${stroke}`;
  found.note(`a path ${shown}, in no group named after an operation, was taken as cut`);
  return 'cut';
}
