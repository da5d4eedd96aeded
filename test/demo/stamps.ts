/** A page stamped with the orchard's things, in inks of autumn. */
import { bounds, compose, scaling, transform, translation } from '../../src/geom/index.js';
import { MOTIFS, makeMotifTools } from '../../src/motifs/index.js';
import { fillParams } from '../../src/params.js';
import type { Stamp } from '../support/stamped.js';

type Colour = Stamp['colour'];
const [BROWN, RUST, GREEN, PLUM, GOLD]: readonly Colour[] = [
  [92, 62, 40],
  [176, 70, 38],
  [70, 104, 58],
  [98, 54, 92],
  [214, 160, 48],
];
/** Motif, middle and width, mm, and its ink; the last of each row is pale. */
const STAMPED: readonly (readonly [string, number, number, number, Colour])[] = [
  ['apple', 50, 225, 40, RUST!],
  ['oak-leaf', 107, 222, 30, GREEN!],
  ['pear', 163, 224, 34, GOLD!],
  ['hedgehog', 54, 163, 50, BROWN!],
  ['mushroom', 113, 163, 38, RUST!],
  ['acorn', 163, 163, 27, BROWN!],
  ['bird', 52, 104, 44, PLUM!],
  ['sprig', 110, 104, 26, GREEN!],
  ['snail', 163, 104, 42, PLUM!],
  ['star', 48, 51, 32, GOLD!],
  ['heart', 106, 50, 34, RUST!],
  ['butterfly', 163, 50, 40, BROWN!],
];

/** Layers of paper on each other become ink and no ink by turns, as a rubber stamp is carved. */
export function orchardStamps(): Stamp[] {
  const tools = makeMotifTools({ fonts: new Map() });
  return STAMPED.map(([id, x, y, wide, colour]) => {
    const motif = MOTIFS.find(m => m.id === id);
    if (!motif) throw new Error(`no motif ${id}`);
    const layers = motif.build(fillParams(motif.params, {}), tools);
    const loops = layers.flatMap(l => [l.outline, ...l.holes]);
    const { minX, minY, maxX, maxY } = bounds(...loops);
    const at = compose(
      translation(x, y),
      compose(scaling(wide / (maxX - minX)), translation(-(minX + maxX) / 2, -(minY + maxY) / 2)),
    );
    return { colour, loops: loops.map(p => transform(p, at)) };
  });
}
