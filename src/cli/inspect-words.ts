/** What an inspection says to a person at the terminal. */
import type { Finding, FoundPlace } from '../model.js';
import type { InspectReport } from '../tool/index.js';

/** Places that are told in the text; all that are known stand in the JSON. */
const MOST_TOLD = 5;

export interface Told {
  readonly file: string;
  readonly report: InspectReport;
  /** The cutter that time and reach are judged for. */
  readonly cutter: string;
}

const mm = (n: number) => `${n.toFixed(1)} mm`;

export function reportText({ file, report, cutter }: Told): string {
  const { findings, tip, unaided, seconds } = report;
  const placed = findings.some(f => f.places.length > 0);
  const time = (s: number | undefined) =>
    s === undefined ? '' : `, ${s.toFixed(0).padStart(4)} s`;
  const lines = [
    `${file}: ${report.good ? 'good' : 'NOT GOOD'}`,
    `  sheet ${mm(report.width)} × ${mm(report.height)}${placed ? '; places are mm from its lower left corner, right and up' : ''}`,
    ...report.operations.map(
      o =>
        `  ${o.operation.padEnd(9)} ${String(o.paths).padStart(4)} paths, ${mm(o.length).padStart(11)}${time(o.seconds)}`,
    ),
    `  ${'tool up'.padEnd(20)}, ${mm(report.travel).padStart(11)}${time(travelSeconds(report))}`,
    ...(seconds === undefined ? [] : [`  about ${duration(seconds)} by the speeds of ${cutter}`]),
    `  open cuts ${report.openCuts}, doubled lines ${mm(report.duplicateLength)}`,
  ];
  if (tip) {
    lines.push(
      `  blade ${tip.offset} mm: tip within ${tip.max.toFixed(4)} mm of the drawing (99 % within ${tip.p99.toFixed(4)}), ${tip.uncutMax.toFixed(4)} mm left uncut (99 % within ${tip.uncut99.toFixed(4)})`,
    );
  } else if (unaided) {
    lines.push(`  blade ${unaided.offset} mm: not allowed for in this file, as far as can be seen`);
  }
  findings.forEach((finding, i) => {
    lines.push(`  ${i + 1} ${finding.severity}: ${finding.message}`);
    if (finding.places.length > 0) lines.push(`      at ${placesText(finding)}`);
  });
  return lines.join('\n');
}

const travelSeconds = ({ seconds, operations }: InspectReport) =>
  seconds === undefined ? undefined : operations.reduce((s, o) => s - (o.seconds ?? 0), seconds);

function duration(seconds: number): string {
  const s = Math.round(seconds);
  if (s < 100) return `${s} s`;
  return s < 6000 ? `${Math.round(s / 60)} min` : `${(s / 3600).toFixed(1)} h`;
}

/** One line under a picture's title. */
export function noteText({ report, cutter }: Told): string {
  const { tip, unaided, seconds } = report;
  return [
    `${mm(report.width)} × ${mm(report.height)}`,
    ...(tip
      ? [`blade ${tip.offset} mm: its tip stays within ${tip.max.toFixed(3)} mm of the drawing`]
      : []),
    ...(unaided ? [`blade ${unaided.offset} mm, not allowed for in the file`] : []),
    ...(seconds === undefined ? [] : [`about ${duration(seconds)} by the speeds of ${cutter}`]),
  ].join('  ·  ');
}

/** The first places of a finding, and how many more there are. */
export function placesText({ places, total }: Finding, most = MOST_TOLD): string {
  const told = places.slice(0, most).map(placeText);
  const more = total - told.length;
  return [...told, ...(more > 0 ? [`${more} more`] : [])].join('; ');
}

function placeText({ at: [x, y], size }: FoundPlace): string {
  const where = `${x.toFixed(1)}, ${y.toFixed(1)}`;
  return size === undefined ? where : `${where} (${Number(size.toPrecision(3))} mm)`;
}
