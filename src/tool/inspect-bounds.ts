/** Whether what is to be worked lies on the sheet and in the reach of a cutter. */
import { bounds, boundsOf, type Path } from '../geom/index.js';
import type { Drawing, FoundPlace } from '../model.js';
import { TIP_MM } from '../units/tolerances.js';
import { type Findings, many, mm } from './findings.js';

/** A cutter's working area and the border that its tools cannot reach, mm. */
export interface Area {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  /** The sheet lies in the cutter's corner; otherwise the person puts the drawing where it fits, and only its
   *  size is judged. */
  readonly placed: boolean;
  /** What it is called. */
  readonly name: string;
}

/** (The pivot of a compensated cut runs ahead of it by the offset, also into the border: nothing is cut
 *  there, so what is judged is the drawing. Where that is not known, the size is judged with `slack` mm.) */
export function judgePlace(
  judged: Drawing,
  area: Area | undefined,
  slack: number,
  findings: Findings,
): void {
  const { width, height } = judged;
  const paths = judged.layers.filter(l => l.operation !== 'register').flatMap(l => l.paths);
  const over = beyond(paths, 0, 0, width, height);
  if (over.length > 0) {
    findings.add(
      'outside-sheet',
      'fault',
      `${many(over.length, 'line reaches', 'lines reach')} up to ${mm(over[0]!.size!)} beyond the sheet: move or shrink ${over.length === 1 ? 'it' : 'them'}`,
      over,
    );
  }
  if (!area || paths.length === 0) return;
  if (!area.placed) judgeSize(paths, area, slack, findings);
  else judgeReach(paths, judged, area, findings);
}

function judgeSize(paths: readonly Path[], area: Area, slack: number, findings: Findings): void {
  const b = boundsOf(paths);
  const [wide, high] = [b.maxX - b.minX, b.maxY - b.minY];
  const [most, mostHigh] = [area.width - 2 * area.margin, area.height - 2 * area.margin];
  const over = slack + TIP_MM;
  if (wide <= most + over && high <= mostHigh + over) return;
  const turns = high <= most + over && wide <= mostHigh + over;
  findings.add(
    'outside-area',
    turns ? 'note' : 'warning',
    `the drawing is ${mm(wide)} × ${mm(high)}, ${area.name} reaches ${mm(most)} × ${mm(mostHigh)}: ${turns ? 'turn it' : 'divide it, or take a larger cutter'}`,
  );
}

function judgeReach(
  paths: readonly Path[],
  { width: wide, height: high }: Drawing,
  { width, height, margin, name }: Area,
  findings: Findings,
): void {
  if (wide > width + TIP_MM || high > height + TIP_MM) {
    findings.add(
      'outside-area',
      'fault',
      `the sheet is ${mm(wide)} × ${mm(high)}, ${name} takes ${mm(width)} × ${mm(height)}`,
    );
  }
  const [right, top] = [Math.min(width, wide) - margin, Math.min(height, high) - margin];
  const unreached = beyond(paths, margin, margin, right, top);
  if (unreached.length > 0) {
    findings.add(
      'outside-area',
      'fault',
      `${many(unreached.length, 'line reaches', 'lines reach')} up to ${mm(unreached[0]!.size!)} into the border of ${mm(margin)} that ${name} cannot reach: move or shrink ${unreached.length === 1 ? 'it' : 'them'}`,
      unreached,
    );
  }
}

/** Where and by how much paths reach out of a rectangle, the furthest first. */
function beyond(
  paths: readonly Path[],
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): FoundPlace[] {
  return paths
    .flatMap((path): FoundPlace[] => {
      const b = bounds(path);
      const [midX, midY] = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
      const sides: FoundPlace[] = [
        { at: [b.minX, midY], size: x0 - b.minX },
        { at: [midX, b.minY], size: y0 - b.minY },
        { at: [b.maxX, midY], size: b.maxX - x1 },
        { at: [midX, b.maxY], size: b.maxY - y1 },
      ];
      const worst = sides.reduce((a, s) => (s.size! > a.size! ? s : a));
      return worst.size! > TIP_MM ? [worst] : [];
    })
    .sort((a, b) => b.size! - a.size!);
}
