/** A round doily of pierced paper. Drawn with a radius of 50 to the notches of its edge. */
import { defineMotif } from '../contracts.js';
import {
  circle,
  clockwise,
  closedSpline,
  compose,
  corner,
  heading,
  polar,
  rotation,
  scaling,
  transform,
  translation,
} from '../geom/index.js';
import type { Path } from '../model.js';
import { ParamError } from '../params.js';
import { figure } from './figure.js';
import { heartOutline } from './hearts.js';
import { layer, sized, sizeParam } from './layers.js';
import { scallopedCircle } from './scallops.js';
import { ellipse } from './shapes.js';
import { stitched } from './stitches.js';

const RADIUS = 50;

/** A hole drawn pointing up about the origin, brought to a radius, once for each of `count` angles from
 *  `first` on (0 is up). */
function ring(hole: Path, radius: number, count: number, first = 0): Path[] {
  const up = transform(hole, translation(0, radius));
  return Array.from({ length: count }, (_, i) =>
    transform(up, rotation(first + (2 * Math.PI * i) / count)),
  );
}

/** A drop one unit high whose point is at the foot. */
const DROP = closedSpline([
  corner([0, -0.5], 'free', [0.45, 1]),
  heading([0.3, 0.2], [0, 1]),
  heading([0, 0.5], [-1, 0]),
  heading([-0.3, 0.2], [0, -1]),
]);

/** Fewer hearts than this look lost in the middle. */
const LEAST_HEARTS = 6;

/** Below this much of the paper's edge for each repeat its lace would tear, mm. */
const LEAST_REPEAT_MM = 11;

export const doily = defineMotif({
  id: 'doily',
  family: 'lace',
  summary: 'a round doily: scallops, fans, drops, pearls and hearts cut out',
  params: {
    size: { ...sizeParam(100), least: 50 },
    repeats: {
      kind: 'count',
      default: 16,
      least: 8,
      most: 36,
      help: 'how often the pattern repeats',
    },
    hearts: {
      kind: 'flag',
      default: true,
      help: 'a ring of hearts about the middle, where there is room',
    },
    middle: { kind: 'flag', default: false, help: 'a disc in the middle, to write on' },
  },
  build({ size, repeats, hearts, middle }) {
    const most = Math.floor((Math.PI * size) / LEAST_REPEAT_MM);
    if (!(repeats <= most)) {
      throw new ParamError(
        'repeats',
        repeats,
        `at most ${most} on a doily of ${size} mm`,
        'take fewer, or make it larger',
      );
    }
    const half = Math.PI / repeats;
    const pitch = 2 * RADIUS * Math.sin(half);
    const unit = scallopedCircle(repeats, (170 * Math.PI) / 180);
    const outline = transform(unit, scaling(RADIUS));
    // In each scallop three petals fan out from its middle.
    const eye = RADIUS * Math.cos(half);
    const fan = [-1, 0, 1].map(i => {
      const angle = Math.PI / 2 + i * 1.02;
      const at = polar(0.25 * pitch, angle, [0, eye]);
      return ellipse(at, 0.115 * pitch, 0.066 * pitch, angle);
    });
    const petals = fan.flatMap(p => ring(p, 0, repeats));
    const dropHigh = Math.min(0.72 * pitch, 13);
    const dropAt = eye - 0.2 * pitch - dropHigh / 2;
    const wide = Math.min(dropHigh, (1.05 * pitch * dropAt) / RADIUS);
    const drops = ring(transform(DROP, scaling(wide, dropHigh)), dropAt, repeats);
    const between = ring(circle([0, 0], 0.085 * pitch), RADIUS - 0.3 * pitch, repeats, half);
    const pearlAt = dropAt - dropHigh / 2 - 0.16 * pitch;
    const pearls = ring(circle([0, 0], 0.08 * pitch), pearlAt, repeats, half);
    const heartWide = Math.min(0.5 * pitch, 8);
    const heartAt = pearlAt - 0.22 * pitch - heartWide / 2;
    const heart = sized(heartOutline({ proportion: 0.95, cleft: 0.2, point: 0.72 }), heartWide);
    const count = Math.floor((2 * Math.PI * heartAt) / (1.62 * heartWide));
    const bare = middle || count < LEAST_HEARTS;
    const inner = hearts && !bare ? ring(heart, heartAt, count) : [];
    const holes = [...petals, ...drops, ...between, ...pearls, ...inner].map(clockwise);
    const lace = layer('lace', outline, { paper: 'lace', holes });
    const clear = (hearts && !bare ? heartAt - heartWide / 2 : pearlAt) - 0.2 * pitch;
    const strokes = stitched(circle([0, 0], 0.84 * clear), { stitch: 'draw', stitchLength: 2 });
    const disc = transform(
      scallopedCircle(2 * repeats, 2.6),
      compose(rotation(half), scaling(clear)),
    );
    return figure([lace, ...(middle ? [layer('middle', disc, { strokes })] : [])], size);
  },
});
