/** A guide laid out on one to four pages of paper. */
import type { GuidePage } from '../guide-model.js';
import type { Figure } from './figure.js';
import { drawHand, drawPatterns, handHeight } from './guide-patterns.js';
import { drawCare, drawHead, drawPieces, drawScale } from './guide-sections.js';
import type { Density } from './guide-settings.js';
import { drawSteps } from './guide-steps.js';
import { MARGIN, PageFlow, type PageSize } from './page-flow.js';
import type { TextMetrics } from './text-metrics.js';

const MOST_PAGES = 4;
const SCALE_ROOM_MM = 22;

const DENSITIES: readonly Density[] = [
  { abreast: 1, rows: 40, rowHeight: 8.5, steps: 3, pattern: 0.62, text: 3.3, hand: 2 },
  { abreast: 1, rows: 60, rowHeight: 6, steps: 3, pattern: 0.5, text: 3.1, hand: 2 },
  { abreast: 2, rows: 90, rowHeight: 6, steps: 4, pattern: 0.42, text: 2.9, hand: 3 },
  { abreast: 2, rows: 60, rowHeight: 5, steps: 5, pattern: 0.34, text: 2.6, hand: 3 },
  { abreast: 2, rows: 40, rowHeight: 4.6, steps: 6, pattern: 0.26, text: 2.4, hand: 3 },
];

/** A last page that is used less than this is better saved by setting all more closely. */
const HARDLY_USED = 0.5;
/** Pictures of steps are so large at the most: two in a row. */
const LEAST_ABREAST = 2;

/** So much of the first page may be left; then the picture is so high over what is needed. */
const SPARE = 0.15;
const ABOVE = 0.24;
const MOST_ABOVE = 0.42;

/** The pages, each as one figure. Only what is set most closely may take more than four pages. */
export function layoutGuide(page: GuidePage, size: PageSize, metrics: TextMetrics): Figure[] {
  const { pages } = filledFlow(page, size, metrics);
  return pages.map((marks, i) => ({
    ...size,
    marks: [...marks, ...footMarks(page, i + 1, pages.length, size)],
  }));
}

interface Flowed {
  readonly flow: PageFlow;
  readonly density: Density;
}

/** Where the first page has room left, its picture goes across the page. */
function filledFlow(page: GuidePage, size: PageSize, metrics: TextMetrics): PageFlow {
  const { flow, density } = bestFlow(page, size, metrics);
  const spare = flow.over[0] ?? 0;
  if (!page.closed || spare < SPARE * size.height) return flow;
  const least = ABOVE * size.height;
  const wide = flowed(page, size, metrics, density, least);
  if (wide.pages.length > flow.pages.length) return flow;
  const most = MOST_ABOVE * size.height;
  const high = Math.min(most, least + (wide.over[0] ?? 0) - 1);
  const filled = flowed(page, size, metrics, density, high);
  return filled.pages.length > flow.pages.length ? wide : filled;
}

function bestFlow(page: GuidePage, size: PageSize, metrics: TextMetrics): Flowed {
  const set = (density: Density): Flowed => ({
    flow: flowed(page, size, metrics, density),
    density,
  });
  let i = 0;
  let best = set(DENSITIES[0]!);
  while (best.flow.pages.length > MOST_PAGES && i + 1 < DENSITIES.length) {
    i += 1;
    best = set(DENSITIES[i]!);
  }
  const { pages, y } = best.flow;
  if (pages.length < 2 || y >= HARDLY_USED * size.height) return best;
  // A page that hardly anything stands on is saved, or room is made of it for larger pictures.
  const { abreast } = best.density;
  const next = DENSITIES[i + 1];
  const closer = next?.abreast === abreast ? next : best.density;
  for (const steps of [closer.steps, closer.steps + 1]) {
    const saving = set({ ...closer, steps });
    if (saving.flow.pages.length < pages.length) return saving;
  }
  const larger = set({ ...best.density, steps: Math.max(LEAST_ABREAST, best.density.steps - 1) });
  return larger.flow.pages.length > pages.length ? best : larger;
}

function flowed(
  page: GuidePage,
  size: PageSize,
  metrics: TextMetrics,
  density: Density,
  above?: number,
): PageFlow {
  const flow = new PageFlow(size, metrics);
  drawHead(flow, page, density, above);
  drawPieces(flow, page.pieces, density);
  // On the first page where it has room.
  const early = flow.pages.length === 1 && flow.room > SCALE_ROOM_MM;
  if (early) drawScale(flow, page.scale);
  if (page.patterns) drawPatterns(flow, page.patterns, density, handHeight(flow, page, density));
  if (page.byHand) drawHand(flow, page.byHand, density);
  if (page.steps) drawSteps(flow, page.steps, density);
  if (page.decorating) drawSteps(flow, page.decorating, density);
  if (!early) drawScale(flow, page.scale);
  drawCare(flow, page.care, density);
  return flow;
}

function footMarks(
  { title, foot }: GuidePage,
  n: number,
  of: number,
  size: PageSize,
): Figure['marks'] {
  const text = foot.replace('{page}', String(n)).replace('{pages}', String(of));
  const y = MARGIN - 4;
  const style = { kind: 'words', size: 2.6, colour: 'faint' } as const;
  // A long title stops short of the number.
  const short = title.length > 90 ? `${title.slice(0, 88).trimEnd()}…` : title;
  return [
    { ...style, text: short, at: [MARGIN, y], anchor: 'start' },
    { ...style, text, at: [size.width - MARGIN, y], anchor: 'end' },
  ];
}
