/** Strips for borders: one or both long edges cut in scallops, zigzags, brackets or lace. */
import { defineMotif } from '../contracts.js';
import { arcTo, closedPath, line, openPath } from '../geom/index.js';
import type { Layer, Path, Point, Segment } from '../model.js';
import { ParamError } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { layer, sizeParam } from './layers.js';
import { dashes, stitchParams } from './stitches.js';

/** One repeat of an edge, one unit long, from (0, 0) to (1, 0), with the paper below it. */
export interface Edge {
  readonly depth: number;
  /** Its segments, each as where it ends and how far it turns. */
  readonly steps: readonly (readonly [to: Point, sweep: number])[];
}

const SCALLOP: Edge = { depth: 0.5 * Math.tan((160 * Math.PI) / 720), steps: [[[1, 0], -2.7925]] };
const ZIGZAG: Edge = {
  depth: 0.52,
  steps: [
    [[0.5, 0.52], 0],
    [[1, 0], 0],
  ],
};

/** A bracket's half repeat: up and outward along one arc, and up to its tip along another. The headings
 *  are where it starts, where the arcs meet, and at the tip. */
function bracketEdge(): Edge {
  const [from, via, tip] = [78, 14, 52].map(deg => (deg * Math.PI) / 180) as [
    number,
    number,
    number,
  ];
  const across = 2 * -Math.sin(via) + Math.sin(from) + Math.sin(tip);
  const r = 0.5 / across;
  const x = r * (Math.sin(from) - Math.sin(via));
  const y = r * (Math.cos(via) - Math.cos(from));
  const depth = y + r * (Math.cos(via) - Math.cos(tip));
  return {
    depth,
    steps: [
      [[x, y], via - from],
      [[0.5, depth], tip - via],
      [[1 - x, y], tip - via],
      [[1, 0], via - from],
    ],
  };
}
const BRACKET = bracketEdge();
export const LACE: Edge = { depth: 0.5, steps: [[[1, 0], -Math.PI]] };

export interface StripForm {
  readonly size: number;
  readonly height: number;
  readonly repeats: number;
  readonly edges: string;
}

/** What a strip is measured from: a repeat's length, and where the edges' feet lie. */
export interface Measures {
  readonly pitch: number;
  readonly top: number;
  readonly bottom: number;
  readonly both: boolean;
}

export function measure({ size, height, repeats, edges }: StripForm, { depth }: Edge): Measures {
  const pitch = size / repeats;
  const both = edges === 'both';
  const reach = depth * pitch;
  const plain = height - (both ? 2 : 1) * reach;
  if (!(plain >= 2 * LEAST_WIDTH_MM)) {
    const least = height - plain + 2 * LEAST_WIDTH_MM;
    throw new ParamError(
      'height',
      height,
      `at least ${least.toFixed(2)} mm with ${repeats} repeats on ${size} mm`,
      'make the strip higher, or take more repeats',
    );
  }
  return { pitch, top: height / 2 - reach, bottom: both ? reach - height / 2 : -height / 2, both };
}

/** The whole outline: along the bottom to the right, and back along the top. */
export function stripOutline({ size, repeats }: StripForm, { steps }: Edge, m: Measures): Path {
  const segments: Segment[] = [];
  const half = size / 2;
  const go = (to: Point, sweep: number) =>
    segments.push(sweep === 0 ? line(to) : arcTo(to, -sweep));
  const at = (i: number) => (size * i) / repeats - half;
  if (m.both) {
    for (let i = 0; i < repeats; i++) {
      for (const [[u, v], sweep] of steps) {
        go([u === 1 ? at(i + 1) : at(i) + u * m.pitch, m.bottom - v * m.pitch], sweep);
      }
    }
  } else go([half, m.bottom], 0);
  go([half, m.top], 0);
  for (let i = repeats; i > 0; i--) {
    for (const [[u, v], sweep] of steps) {
      go([u === 1 ? at(i - 1) : at(i) - u * m.pitch, m.top + v * m.pitch], sweep);
    }
  }
  return closedPath([-half, m.bottom], segments);
}

/** Rows of stitches along the decorated edges. */
function rows(form: StripForm, m: Measures, { stitch, inset, stitchLength }: Stitching) {
  if (stitch !== 'draw' && stitch !== 'perforate') return [];
  const levels = [m.top - inset, ...(m.both ? [m.bottom + inset] : [])];
  const end = form.size / 2 - 1;
  const room = m.both ? (m.top - m.bottom) / 2 : m.top - m.bottom;
  if (!(inset < room)) {
    throw new ParamError(
      'inset',
      inset,
      `less than ${room.toFixed(2)} mm here`,
      'bring the stitches nearer to the edge, or leave them out',
    );
  }
  return levels.flatMap(y =>
    dashes(openPath([-end, y], [line([end, y])]), stitchLength, 0.62 * stitchLength).map(path => ({
      operation: stitch as 'draw' | 'perforate',
      path,
    })),
  );
}

interface Stitching {
  readonly stitch: string;
  readonly inset: number;
  readonly stitchLength: number;
}

export const stripParams = (size: number, height: number, repeats: number) =>
  ({
    size: { ...sizeParam(size), least: 30, help: 'length of the strip' },
    height: { kind: 'length', default: height, least: 5, most: 100, help: 'height of the strip' },
    repeats: {
      kind: 'count',
      default: repeats,
      least: 2,
      most: 100,
      help: 'how many in the length',
    },
    edges: {
      kind: 'choice',
      default: 'one',
      choices: ['one', 'both'],
      help: 'one edge cut, the other straight, or both cut',
    },
  }) as const;
const stitchedStrip = { ...stitchParams, inset: { ...stitchParams.inset, default: 1.6 } } as const;

/** Fewer than this many mm for a repeat would tear or look ragged. */
const LEAST_REPEAT_MM = 3;

export function leastRepeat({ size, repeats }: StripForm, least: number): void {
  if (size / repeats >= least) return;
  const most = Math.floor(size / least);
  throw new ParamError(
    'repeats',
    repeats,
    most < 2 ? 'there is no room for two' : `at most ${most} on ${size} mm`,
    'take fewer, or make the strip longer',
  );
}

function plainStrip(form: StripForm & Stitching, edge: Edge): Layer[] {
  leastRepeat(form, LEAST_REPEAT_MM);
  const m = measure(form, edge);
  return [layer('front', stripOutline(form, edge, m), { strokes: rows(form, m, form) })];
}

export const scallopStrip = defineMotif({
  id: 'scallop-strip',
  family: 'strips',
  summary: 'a strip for a border, edged with scallops',
  params: { ...stripParams(120, 14, 15), ...stitchedStrip },
  build: values => plainStrip(values, SCALLOP),
});

export const zigzagStrip = defineMotif({
  id: 'zigzag-strip',
  family: 'strips',
  summary: 'a strip for a border, pinked in a zigzag',
  params: { ...stripParams(120, 12, 24), ...stitchedStrip },
  build: values => plainStrip(values, ZIGZAG),
});

export const bracketStrip = defineMotif({
  id: 'bracket-strip',
  family: 'strips',
  summary: 'a strip for a border, edged with curly brackets',
  params: { ...stripParams(120, 16, 9), ...stitchedStrip },
  build: values => plainStrip(values, BRACKET),
});
