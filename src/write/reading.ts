/** What reading a cut file gives, and the limits that both readers keep. */
import { bounds, isFinitePath } from '../geom/index.js';
import type { Convention, Drawing, Operation, Path, Point, Segment } from '../model.js';
import { OPERATIONS } from '../model.js';
import { SAME_POINT_MM } from '../units/tolerances.js';
import { ReadError } from './read-error.js';

/** How software may take a file: by the size that it says, by 96, 90 or 72 units to the inch, or by its
 *  numbers as millimetres or inches. */
export type ImportWay = 'size' | '96' | '90' | '72' | 'mm' | 'in';

/** The sheet as one kind of software takes it, mm. */
export interface ImportSize {
  readonly as: ImportWay;
  readonly width: number;
  readonly height: number;
  /** Times the size as it was read. */
  readonly scale: number;
}

export interface Reading {
  readonly drawing: Drawing;
  /** Every way in which software may take its size. */
  readonly sizes: readonly ImportSize[];
  /** The one of them that was taken. */
  readonly readAs: ImportWay;
  /** What was left out or guessed, in words, for the person. */
  readonly notes: readonly string[];
}

export interface ReadOptions {
  /** The drawing's name; files do not carry one. */
  readonly name?: string;
  /** Tells operations by colour where nothing is named after one. */
  readonly convention?: Convention;
}

/** Longer texts are refused before anything looks into them: a parsed file takes about 60 times its
 *  size in memory (measured with xmldom). */
export const MOST_CHARACTERS = 8e6;
/** A sheet of a few hundred pieces has some ten thousand segments. */
export const MOST_SEGMENTS = 250_000;
/** As far as the writers go. */
const MOST_MM = 1e7;

const PER_MM = Math.round(1 / SAME_POINT_MM);
/** Takes away what arithmetic leaves behind a coordinate that was written with three decimals. */
const tidy = ([x, y]: Point): Point => [
  Math.round(x * PER_MM) / PER_MM + 0,
  Math.round(y * PER_MM) / PER_MM + 0,
];

function tidyPath(path: Path): Path {
  const segments = path.segments.map((s): Segment => {
    if (s.kind === 'cubic') return { ...s, c1: tidy(s.c1), c2: tidy(s.c2), to: tidy(s.to) };
    return { ...s, to: tidy(s.to) };
  });
  return { start: tidy(path.start), segments, closed: path.closed };
}

/** A way to take a file, and the millimetres that a unit then has. */
export type Way = readonly [as: ImportWay, mm: number];

/** Gathers paths by operation, keeping count, and words of what was left out. */
export class Gathering {
  private readonly found = new Map<Operation, Path[]>();
  private readonly left = new Map<string, number>();
  private segments = 0;

  /** Throws `ReadError` for numbers no sheet has, and when there are too many segments. */
  add(operation: Operation, path: Path, where: string): void {
    this.segments += path.segments.length;
    if (!(this.segments <= MOST_SEGMENTS)) {
      throw new ReadError(
        `more than ${MOST_SEGMENTS} segments`,
        where,
        'simplify the drawing, or divide it among several files',
      );
    }
    const tidied = isFinitePath(path) ? tidyPath(path) : path;
    const b = isFinitePath(tidied) && bounds(tidied);
    if (!(b && Math.max(-b.minX, -b.minY, b.maxX, b.maxY) <= MOST_MM)) {
      throw new ReadError(
        'a coordinate that is no number, or is kilometres away',
        where,
        'redraw this path',
      );
    }
    const paths = this.found.get(operation);
    if (paths) paths.push(tidied);
    else this.found.set(operation, [tidied]);
  }

  /** Counts one more of what was left out or guessed. */
  note(words: string): void {
    this.left.set(words, (this.left.get(words) ?? 0) + 1);
  }

  /** `ways` are the millimetres of a unit in each way to take it, that in which it was read first. */
  result(
    name: string,
    width: number,
    height: number,
    ways: readonly Way[],
    move = (path: Path) => path,
  ): Reading {
    const layers = OPERATIONS.flatMap(operation => {
      const paths = this.found.get(operation);
      return paths ? [{ operation, paths: paths.map(move) }] : [];
    });
    const notes = [...this.left].map(([words, n]) => (n > 1 ? `${words} (${n} times)` : words));
    const [[readAs, unit]] = ways as [Way];
    const sizes = ways.map(([as, mm]): ImportSize => {
      const scale = mm / unit;
      return { as, width: scale * width, height: scale * height, scale };
    });
    return { drawing: { name, width, height, layers }, sizes, readAs, notes };
  }

  /** All paths, for a file that does not say how large its sheet is. */
  all(): Path[] {
    return [...this.found.values()].flat();
  }
}
