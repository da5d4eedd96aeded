/** Glyphs of a font as closed paths. */
import { cubic, line, signedArea } from '../../geom/index.js';
import type { Path, Point, Segment } from '../../model.js';

interface Command {
  readonly command: string;
  readonly args: readonly number[];
}

/** The closed contours of a glyph; quadratics raised to cubics, which is exact. */
export function outlines(
  commands: readonly Command[],
  to: (u: number, v: number) => Point,
): Path[] {
  const paths: Path[] = [];
  let start: Point | undefined;
  let at: Point = [0, 0];
  let segments: Segment[] = [];
  const close = () => {
    if (start && segments.length > 0) {
      if (at[0] !== start[0] || at[1] !== start[1]) segments.push(line(start));
      const path: Path = { start, segments, closed: true };
      if (signedArea(path) !== 0) paths.push(path);
    }
    segments = [];
  };
  for (const { command, args } of commands) {
    const p = (i: number) => to(args[i]!, args[i + 1]!);
    if (command === 'moveTo') {
      close();
      start = p(0);
      at = start;
    } else if (command === 'closePath') {
      close();
      start = undefined;
    } else {
      const from = at;
      if (command === 'lineTo') {
        at = p(0);
        if (at[0] === from[0] && at[1] === from[1]) continue;
        segments.push(line(at));
      } else if (command === 'quadraticCurveTo') {
        const q = p(0);
        at = p(2);
        const third = (a: Point): Point => [(a[0] + 2 * q[0]) / 3, (a[1] + 2 * q[1]) / 3];
        segments.push(cubic(third(from), third(at), at));
      } else {
        at = p(4);
        segments.push(cubic(p(0), p(2), at));
      }
    }
  }
  close();
  return paths;
}
