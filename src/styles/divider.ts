import { defineStyle } from '../contracts.js';
import { line, openPath } from '../geom/index.js';
import type { Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { atMost, auto, checkedSize, mm } from './bounds.js';
import { type NetBuilder, newNet, SQUARE } from './build.js';
import { type Corner, polygonShape, rect, type Shape } from './shapes.js';

/** A smaller place holds nothing, mm. */
const LEAST_CELL = 3;
/** Places are about this large where the person does not say how many, mm. */
const USUAL_CELL = 50;
/** What every slot is deeper than half of the strip, so that all strips stand on the floor, mm. */
const DEEPER = 0.25;

/**
 * Strips that stand on edge and cross in slots: those along the length are open at the top, those
 * across it at the bottom. All places have the same clear size.
 */
export const divider = defineStyle({
  id: 'divider',
  summary: 'Slotted strips that part any rectangular box into equal places',
  tags: ['insert', 'fitment', 'slotted partition', 'FEFCO group 09', 'ECMA group X?'],
  example: { length: 150, width: 100, height: 40 },
  params: {
    columns: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 12,
      help: 'Places along the length; 0 chooses about 50 mm for each, and two at least.',
    },
    rows: {
      kind: 'count',
      default: 0,
      least: 0,
      most: 12,
      help: 'Places across the width; 0 chooses about 50 mm for each.',
    },
    rise: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 2000,
      help: "Height of the strips; auto is the box's height.",
    },
    ease: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'Room between a strip and the wall at each end; auto is 0.25 mm, none without thickness.',
    },
    slack: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 2,
      help: 'How much wider a slot is than the paper; auto is 0.2 mm, none without thickness.',
    },
    tab: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 60,
      help: 'Tabs at the ends of strips, to glue to the walls; auto is none where strips cross, else 8 mm.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    const usual = (whole: number) => Math.min(12, Math.max(1, Math.round(whole / USUAL_CELL)));
    const columns = values.columns || Math.max(2, usual(length));
    const rows = values.rows || usual(width);
    if (columns === 1 && rows === 1) {
      throw new ParamError('columns', 1, 'at least 2, or more than one row', 'ask for more places');
    }
    const rise = atMost(
      'rise',
      auto(values.rise, height),
      height,
      'the height of the box',
      'make the strips lower',
    );
    const ease = auto(values.ease, t > 0 ? 0.25 : 0);
    const slot = t + auto(values.slack, t > 0 ? 0.2 : 0);
    const cell = (whole: number, n: number) => (whole - (n - 1) * t) / n;
    const [cellX, cellY] = [cell(length, columns), cell(width, rows)];
    const leastCell = Math.max(LEAST_CELL, slot + 2);
    for (const [name, count, size, whole] of [
      ['columns', columns, cellX, length],
      ['rows', rows, cellY, width],
    ] as const) {
      if (size >= leastCell) continue;
      const most = Math.max(1, Math.floor((whole + t) / (leastCell + t)));
      const left = mm(Math.max(0, size));
      throw new ParamError(
        name,
        count,
        `at most ${most}, so that each place has ${mm(leastCell)}: ${count} leave it ${left}`,
        'ask for fewer places or a larger box',
      );
    }
    const crossing = columns > 1 && rows > 1;
    // Clear of the tabs of crossing strips in its corner.
    const least = Math.min(columns > 1 ? cellX : cellY, rows > 1 ? cellY : cellX);
    const tabMost = least - 1 - ease - 2 * t;
    const tab = auto(values.tab, crossing ? 0 : 8, tabMost);
    atMost('tab', tab, tabMost, 'or it does not fit its place', 'make the tabs shorter');

    const left = tab > 0 ? 2 * t + 1 : 2;
    const easeMost = (Math.min(cellX, cellY) - left) / 2;
    atMost('ease', ease, easeMost, 'or the outer places are open', 'leave less room');
    // A tab's outer face is the ease off the wall.
    const from = ease + (tab > 0 ? t / 2 : 0);
    /** The middles of the strips that part a side into `n` places. */
    const middles = (size: number, n: number) =>
      Array.from({ length: n - 1 }, (_, i) => (i + 1) * (size + t) - t / 2);
    const long = middles(cellY, rows).map((y, i) => {
      const slots = middles(cellX, columns).map(x => x - from);
      const shape = slotted(length - 2 * from, rise, slots, slot, 'up');
      const strip = newStrip(`long-${i + 1}`, `Strip lengthwise ${i + 1}`, shape);
      return strip.done([0, 1, 0], { at: [0, y - width / 2] });
    });
    const across = middles(cellX, columns).map((x, i) => {
      const slots = middles(cellY, rows).map(y => y - from);
      const shape = slotted(width - 2 * from, rise, slots, slot, 'down');
      const strip = newStrip(`cross-${i + 1}`, `Strip across ${i + 1}`, shape);
      return strip.done([0, 1, 0], { at: [x - length / 2, 0], turn: SQUARE });
    });
    return [...long, ...across];

    function newStrip(id: string, title: string, shape: Shape): NetBuilder {
      const net = newNet(id, title, t);
      const strip = net.root('strip', 'insert', shape);
      for (const side of tab > 0 ? (['left', 'right'] as const) : []) {
        net.fold(strip.side(side), `${side}-tab`, 'glue-flap', w =>
          rect(w, tab, Math.min(2, tab / 2, w / 4)),
        );
      }
      return net;
    }
  },
});

/** A strip with slots to half of its height. A slot of no width is a slit. */
function slotted(
  whole: number,
  rise: number,
  at: readonly number[],
  slot: number,
  mouth: 'up' | 'down',
): Shape {
  const deep = Math.min(rise / 2 + DEEPER, rise - 1);
  const [open, closed] = mouth === 'up' ? [rise, rise - deep] : [0, deep];
  if (slot === 0) {
    const strokes = at.map(
      (x): Stroke => ({
        operation: 'cut',
        path: openPath([x, open], [line([x, closed])]),
      }),
    );
    return { ...rect(whole, rise), strokes };
  }
  const notches = (mouth === 'up' ? [...at].reverse() : at).flatMap((x): Corner[] => {
    const [a, b] = mouth === 'up' ? [x + slot / 2, x - slot / 2] : [x - slot / 2, x + slot / 2];
    return [{ at: [a, open] }, { at: [a, closed] }, { at: [b, closed] }, { at: [b, open] }];
  });
  return polygonShape([
    { at: [0, 0] },
    ...(mouth === 'down' ? notches : []),
    { at: [whole, 0], side: 'right' },
    { at: [whole, rise] },
    ...(mouth === 'up' ? notches : []),
    { at: [0, rise], side: 'left' },
  ]);
}
