/** Path data of SVG, with y down and to a hundredth: for goldens and for looking. */
import { arcsToCubics, steps } from '../../src/geom/index.js';
import type { Path } from '../../src/model.js';

export const num = (v: number): string => {
  const text = v.toFixed(2);
  return text === '-0.00' ? '0.00' : text;
};

export function data(path: Path): string {
  const point = (p: readonly [number, number]) => `${num(p[0])} ${num(-p[1])}`;
  let out = `M${point(path.start)}`;
  for (const { segment: s } of steps(arcsToCubics(path))) {
    out += s.kind === 'cubic' ? `C${point(s.c1)} ${point(s.c2)} ${point(s.to)}` : '';
    out += s.kind === 'line' ? `L${point(s.to)}` : '';
  }
  return path.closed ? `${out}Z` : out;
}
