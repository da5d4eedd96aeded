/** Where the copies of a decoration go, as seen on its face: from its own frame to the panel's middle. */
import type { MotifTools } from '../contracts.js';
import { bounds, compose, polar, rotation, transform, translation } from '../geom/index.js';
import type { Affine, Bounds, Decoration, Path, Point } from '../model.js';
import { ParamError } from '../params.js';

/** Throws for one copy that were more than this: a slip of the finger. */
const MOST_COPIES = 200;
/** Places tried for each copy that is scattered. */
const TRIES = 300;

/** Whether a copy may lie there; for those that are placed by chance. */
type Free = (pose: Affine) => boolean;

/**
 * One pose for each copy, in the order in which they are glued. `outline` is the widest layer's, `panel`
 * the panel's box about its middle. Throws `ParamError` where scattered copies have no room.
 */
export function posesOf(
  decoration: Decoration,
  outline: Path,
  panel: Bounds | undefined,
  free: Free,
  tools: MotifTools,
): readonly Affine[] {
  const { turn, repeat } = decoration;
  const turned = rotation(turn);
  const own = bounds(transform(outline, turned));
  const place = panel ? placeOf(decoration, own, panel) : decoration.at;
  const at = (p: Point, more = 0): Affine =>
    compose(translation(place[0] + p[0], place[1] + p[1]), compose(rotation(more), turned));
  if (!repeat) return [at([0, 0])];
  if (!(repeat.count <= MOST_COPIES)) {
    throw new ParamError('repeat', repeat.count, `at most ${MOST_COPIES} copies`, 'make fewer');
  }
  const all = Array.from({ length: repeat.count }, (_, i) => i);
  switch (repeat.kind) {
    case 'row': {
      const { angle } = repeat;
      const box = bounds(transform(outline, compose(rotation(-angle), turned)));
      const wide = repeat.measure === 'gap' ? box.maxX - box.minX : 0;
      const step = repeat.distance + wide;
      return all.map(i => at(polar((i - (repeat.count - 1) / 2) * step, angle)));
    }
    case 'ring':
      return all.map(i => {
        const round = -(i * 2 * Math.PI) / repeat.count;
        return at(polar(repeat.radius, Math.PI / 2 + round), repeat.upright ? 0 : round);
      });
    case 'scatter':
      if (!panel) {
        throw new ParamError(
          'repeat',
          'scatter',
          'a panel to scatter on',
          'name a panel, or use row',
        );
      }
      return scattered(repeat, outline, panel, turned, free, tools);
  }
}

function placeOf({ at, anchor }: Decoration, own: Bounds, panel: Bounds): Point {
  if (!anchor) return at;
  const along = (f: number, low: number, high: number, from: number, to: number): number => {
    if (anchor.inset === undefined) return low + f * (high - low);
    // Its own edge to the panel's, or middle to middle.
    const inside = f < 0.5 ? anchor.inset : f > 0.5 ? -anchor.inset : 0;
    return low + f * (high - low) + inside - (from + f * (to - from));
  };
  return [
    at[0] + along(anchor.x, panel.minX, panel.maxX, own.minX, own.maxX),
    at[1] + along(anchor.y, panel.minY, panel.maxY, own.minY, own.maxY),
  ];
}

function scattered(
  repeat: {
    readonly count: number;
    readonly seed: number;
    readonly gap: number;
    readonly turn: number;
  },
  outline: Path,
  panel: Bounds,
  turned: Affine,
  free: Free,
  tools: MotifTools,
): Affine[] {
  const random = tools.seeded(repeat.seed);
  const middle = bounds(outline);
  const far = Math.hypot(middle.maxX - middle.minX, middle.maxY - middle.minY) / 2;
  const aside: Point = [(middle.minX + middle.maxX) / 2, (middle.minY + middle.maxY) / 2];
  const poses: Affine[] = [];
  const middles: Point[] = [];
  for (let tries = repeat.count * TRIES; tries > 0 && poses.length < repeat.count; tries--) {
    const x = panel.minX + random() * (panel.maxX - panel.minX);
    const y = panel.minY + random() * (panel.maxY - panel.minY);
    const angle = (2 * random() - 1) * repeat.turn;
    const least = 2 * far + repeat.gap;
    if (middles.some(([u, v]) => Math.hypot(u - x, v - y) < least)) continue;
    const about = compose(compose(rotation(angle), turned), translation(-aside[0], -aside[1]));
    const pose = compose(translation(x, y), about);
    if (!free(pose)) continue;
    poses.push(pose);
    middles.push([x, y]);
  }
  if (poses.length < repeat.count) {
    throw new ParamError(
      'repeat',
      repeat.count,
      `at most about ${poses.length}: more found no room, ${repeat.gap.toFixed(1)} mm apart`,
      'scatter fewer, make them smaller, or the gap narrower',
    );
  }
  return poses;
}
