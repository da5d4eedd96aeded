/** The decorations of a box, face by face: what a person should know of them together. */
import { type BoxNets, panelIn } from './box-nets.js';
import { waysUp } from './fold/index.js';
import type { Item } from './model.js';
import { collisionWarnings, type Decorated, type OnFace } from './motifs/index.js';

/** Decorations of one face in each other's way, and words that are upside down. */
export function faceWarnings(item: Item, box: BoxNets, decorated: readonly Decorated[]): string[] {
  if (!item.box) return [];
  const faces = new Map<string, OnFace[]>();
  const ups = new Map<string, ReturnType<typeof waysUp>>();
  item.decorations.forEach((decoration, i) => {
    const key = `${decoration.panel} ${decoration.face}`;
    const { covers } = decorated[i]!;
    const { net, panel } = panelIn(box, decoration.panel)!;
    const worded = covers.some(c => c.words.length > 0);
    if (worded && !ups.has(net.id)) ups.set(net.id, waysUp(net));
    const up = worded ? ups.get(net.id)!.get(panel.id) : undefined;
    faces.set(key, [...(faces.get(key) ?? []), { decoration, covers, up }]);
  });
  return [...faces.values()].flatMap(face => collisionWarnings(face, item.name));
}
