import { defineStyle } from '../contracts.js';
import { line, openPath } from '../geom/index.js';
import type { FoldWay, Point, Stroke } from '../model.js';
import { atLeast, atMost, auto, checkedSize, radians } from './bounds.js';
import { type Face, newNet } from './build.js';
import { HANDLE_PARAMS, handleHoles } from './handle-holes.js';
import { deepestFlap, flap, rect, type Shape } from './shapes.js';

/** Glue flaps lean in by this (common practice, no source). */
const MITRE = radians(15);
/** A lower cuff is left out, mm. */
const LEAST_CUFF = 1;
/** Bottom flaps meet in the corners. */
const CORNER = Math.PI / 4;
/** Paper left at the head of a flap, mm. */
const WEB = 2;

/**
 * The bag as it stands open. The bottom hangs on the back and is glued under the flaps of the other
 * walls; the cuff is folded in and glued all round, on the walls' inner faces, and the glue flap ends
 * below it. The clear space lies within the cuff.
 */
export const gussetBag = defineStyle({
  id: 'gusset-bag',
  summary: 'Bag with a flat bottom, side gussets, a cuff and holes for a handle',
  tags: ['bag', 'side gusset', 'block bottom', 'ECMA group D?'],
  example: { length: 80, width: 45, height: 110 },
  room: { lies: false },
  params: {
    cuff: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 120,
      help: 'Depth of the cuff folded in at the top; auto is a fifth of the height, 25 mm at most; 0 is none.',
    },
    ...HANDLE_PARAMS,
    glue: {
      kind: 'length',
      default: 'auto',
      least: 4,
      most: 60,
      help: 'Width of the glue flap; auto is 12 mm, and never more than half of the side.',
    },
    bottom: {
      kind: 'length',
      default: 'auto',
      least: 3,
      most: 100,
      help: 'Depth of the flaps that the bottom is glued to; auto is 15 mm where they do not meet.',
    },
    collapse: {
      kind: 'flag',
      default: true,
      help: 'Scores by which the bag folds flat; left out where it is lower than half of its width.',
    },
  },
  build(spec, values) {
    const { length, width, height, t } = checkedSize(spec);
    // The walls end at the rim; the bottom's flaps lie on the bottom.
    const tall = height + 1.5 * t;
    const leastTall = 4 * t + WEB + 2;
    atLeast('height', tall, leastTall, 'or the glue flap has no room', 'make the bag higher');
    const cuffMost = Math.min(height / 2, tall - leastTall - 1);
    const chosen = Math.min(height / 5, cuffMost);
    // A cuff that no finger folds is none.
    const cuff = auto(values.cuff, 25, chosen < LEAST_CUFF ? 0 : chosen);
    if (cuff > 0) {
      atMost(
        'cuff',
        cuff,
        cuffMost,
        'half of the height, and room for the glue flap',
        'make the cuff smaller',
      );
    }
    const layer = cuff > 0 ? t : 0;
    // Crease to crease: the back from the glue flap to the right wall, and back to front.
    const wide = length + t + layer;
    const deep = width + t + 2 * layer;
    const bottom = bottomDepth();
    const holes = handleHoles(values, {
      length,
      band: cuff > 0 ? cuff : height / 3,
      middle: (wide - layer) / 2,
      ...(cuff > 0 && { down: cuff / 2 }),
    });

    const net = newNet('bag', 'Gusset bag', t);
    const low = tall - t;
    const fold = flatScores();
    const back = net.root('back', 'wall', {
      ...rect(wide, tall),
      holes: holes((x, down) => [x, tall - down]),
    });
    const right = net.fold(back.side('right'), 'right', 'wall', w => fold.right(rect(w, deep)), {
      inset: [0, t],
    });
    const front = net.fold(right.side('head'), 'front', 'wall', w => ({
      ...fold.front(rect(w, wide + t)),
      holes: holes((x, down) => [down, wide - x]),
    }));
    const left = net.fold(front.side('head'), 'left', 'wall', w => fold.left(rect(w, deep - t)));

    const glueTop = cuff > 0 ? cuff + 1 : 2 * t;
    const glueMost = Math.min(width / 2, deepestFlap(tall - 2 * t - glueTop, MITRE, WEB));
    const glue = atMost(
      'glue',
      auto(values.glue, 12, glueMost),
      glueMost,
      'half of the side, and where its mitres do not meet',
      'make the glue flap smaller, or the bag wider or higher',
    );
    const seam = net.fold(
      back.side('left'),
      'glue-flap',
      'glue-flap',
      w => flap(w, glue, { mitre: MITRE }),
      { inset: [2 * t, glueTop] },
    );
    net.glue(seam, left);

    if (cuff > 0) {
      const turnIn = (wall: Face, side: string, inset: readonly [number, number], own?: Cuff) => {
        const shape = (w: number): Shape => own?.(rect(w, cuff)) ?? rect(w, cuff);
        const made = net.fold(wall.side(side), `${wall.id}-cuff`, 'flap', shape, {
          angle: Math.PI,
          lift: t,
          inset,
        });
        net.glue(made, wall);
      };
      // Between the side walls' cuffs; those reach from wall to wall.
      turnIn(back, 'head', [t, 2 * t], s => ({ ...s, holes: holes((x, down) => [x - t, down]) }));
      turnIn(front, 'left', [2 * t, 2 * t], s => ({
        ...s,
        holes: holes((x, down) => [wide - x - 2 * t, down]),
      }));
      turnIn(right, 'left', [t, t], fold.cuff);
      turnIn(left, 'left', [t, 0], fold.cuff);
    }

    const base = net.fold(back.side('foot'), 'base', 'base', w => rect(w, deep));
    const under = (
      wall: Face,
      mitre: readonly [number, number],
      inset: readonly [number, number],
    ) =>
      net.glue(
        net.fold(
          wall.side('right'),
          `${wall.id}-bottom`,
          'glue-flap',
          w => flap(w, bottom, { mitre }),
          { inset },
        ),
        base,
      );
    under(right, [CORNER, MITRE], [t, t]);
    under(front, [CORNER, CORNER], [t, t]);
    under(left, [MITRE, CORNER], [0, t]);
    // Folded it lies on its back; on the table it stands on its bottom.
    return [net.done([0, 1, 0])];

    function bottomDepth(): number {
      const most = Math.min(
        deepestFlap(length, CORNER, WEB),
        (width - t - WEB) / (Math.tan(CORNER) + Math.tan(MITRE)),
      );
      atLeast('width', width, t + 2 * WEB, 'or the bottom has no flaps', 'make the bag wider');
      return atMost(
        'bottom',
        auto(values.bottom, 15, most),
        most,
        'or the bottom flaps meet',
        'make the flaps smaller, or the bag wider or longer',
      );
    }

    /** The scores of a bag pressed flat, its bottom turned up onto the front. */
    function flatScores() {
      const up = deep / 2;
      const on = values.collapse && up < low - cuff - WEB;
      // As the walls' inner faces see it.
      const score = (fold: FoldWay, ...points: readonly Point[]): Stroke => {
        const [start, ...rest] = points;
        return { operation: 'score', path: openPath(start!, rest.map(line)), fold };
      };
      const scored = (shape: Shape, ...strokes: readonly Stroke[]): Shape =>
        on ? { ...shape, strokes } : shape;
      // Walls lie on their side: the rim is at x = 0, and y runs on from wall to wall.
      const middle: Point = [low - up, up];
      const side = (atFront: number, corners: readonly [Point, Point]) => (s: Shape) =>
        scored(
          s,
          score('mountain', corners[0], middle, corners[1]),
          score('mountain', [0, up], middle),
          score('valley', middle, [low - up, atFront]),
        );
      return {
        right: side(deep, [
          [low, 0],
          [low, deep],
        ]),
        front: (s: Shape) => scored(s, score('mountain', [low - up, 0], [low - up, wide + t])),
        // One thickness short of the back.
        left: side(0, [
          [low, 0],
          [low - t, deep - t],
        ]),
        // It lies on its wall's inner face with its own.
        cuff: (s: Shape) => scored(s, score('valley', [up - t, 0], [up - t, cuff])),
      };
    }
  },
});

type Cuff = (shape: Shape) => Shape;
