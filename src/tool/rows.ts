/**
 * Rows of dashes: short open paths that follow each other as a person draws them. They were made in
 * their best order, so a row is one stop of the tour and not a hundred.
 */
import { endOf, type Path, type Point, pathLength } from '../geom/index.js';

/** A dash, and the gap to the next, is at most this long, mm: a long basting stitch. */
const MOST_DASH_MM = 12;
/** Fewer than this are searched one by one: the search may find a better way through them. */
const LEAST_ROW = 8;

/** Paths that are worked one after another: indices in what was given. */
export interface Row {
  readonly members: readonly number[];
  /** The last leads on to the first, so the row can begin with any of them. */
  readonly round: boolean;
}

/**
 * Splits paths into rows of dashes and single paths, which are rows of one; each path is in one row.
 * @param apart whether two neighbours must not be in one row for a reason of the caller's
 */
export function rowsOf(
  paths: readonly Path[],
  apart: (earlier: number, later: number) => boolean,
): Row[] {
  const rows: Row[] = [];
  let row: number[] = [];
  const end = () => {
    if (row.length >= LEAST_ROW) {
      const first = paths[row[0]!]!;
      const last = paths[row.at(-1)!]!;
      rows.push({ members: row, round: near(endOf(last), first.start) });
    } else {
      for (const i of row) rows.push({ members: [i], round: false });
    }
    row = [];
  };
  paths.forEach((path, i) => {
    if (path.closed || pathLength(path) > MOST_DASH_MM) {
      end();
      rows.push({ members: [i], round: false });
      return;
    }
    const before = row.at(-1);
    if (before !== undefined) {
      if (apart(before, i) || !near(endOf(paths[before]!), path.start)) end();
    }
    row.push(i);
  });
  end();
  return rows;
}

const near = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]) <= MOST_DASH_MM;
