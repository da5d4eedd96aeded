/** Folds and drawn lines that lie on others of their operation. */
import { distance, type Path, reverse } from '../geom/index.js';
import type { Operation, Severity } from '../model.js';
import { FILE_STEP_MM, TIP_MM } from '../units/tolerances.js';
import { Effort } from './effort.js';
import { type Findings, many, mm } from './findings.js';
import { heapedPlaces } from './heaped.js';
import { dropShared, MOST_SHARED_PAIRS } from './shared-lines.js';

/** What becomes of a line that is worked twice; a cut is judged with its ends and crossings. */
const WORKED: Partial<Record<Operation, readonly [lines: string, Severity, harm: string]>> = {
  draw: ['drawn lines', 'note', 'the pen goes over them again'],
  score: ['scores', 'warning', 'a fold that is pressed twice may crack'],
  perforate: [
    'perforations',
    'warning',
    'a fold whose dashes fall into the gaps of others tears off',
  ],
};

export function judgeDoubled(
  operation: Operation,
  paths: readonly Path[],
  findings: Findings,
  share = 1,
): void {
  const worked = WORKED[operation];
  if (!worked) return;
  const [lines, severity, harm] = worked;
  const times = passesOf(paths);
  // A person who asked for passes has them: they are told, and what lies on others besides them.
  const single = times > 1 ? paths.filter((_, i) => i % times === 0) : paths;
  if (times > 1) {
    findings.add(
      'duplicate',
      'note',
      `all ${lines} are worked ${times} times in a row, as in passes`,
    );
  }
  const sharing = new Effort(share * MOST_SHARED_PAIRS);
  const once = dropShared(single, sharing);
  findings.unchecked(severity, `${lines} that lie on others`, 'pieces of line', sharing.left);
  if (once.sharedLength <= TIP_MM) return;
  const whole = once.duplicates > 0 ? ` (${many(once.duplicates, 'whole line')} twice)` : '';
  findings.add(
    'duplicate',
    severity,
    `${mm(once.sharedLength)} of ${lines} lie on others${whole}: ${harm}; delete one of each`,
    heapedPlaces(once.stretches),
  );
}

/** How often each line is worked before the next, there and back, all of them alike; 1 where they are not:
 *  a line that was pasted on itself runs the same way. */
function passesOf(paths: readonly Path[]): number {
  let times = 1;
  while (times < paths.length && comesBack(paths[times - 1]!, paths[times]!)) times++;
  const regular = (i: number) => i % times === 0 || comesBack(paths[i - 1]!, paths[i]!);
  return paths.length % times === 0 && paths.every((_, i) => regular(i)) ? times : 1;
}

/** The next is the same line from its other end. */
function comesBack(path: Path, next: Path): boolean {
  if (path.closed || next.closed || path.segments.length !== next.segments.length) return false;
  const back = reverse(path);
  return (
    distance(back.start, next.start) <= FILE_STEP_MM &&
    back.segments.every(({ to }, i) => distance(to, next.segments[i]!.to) <= FILE_STEP_MM)
  );
}
