/** What a person sees on a finished box beside its paper and its decorations, from the facts of its nets. */

import type { BoxNets } from './box-nets.js';
import { netFacts } from './fold/index.js';
import { circle, transform } from './geom/index.js';
import type { FaceMark, Film, Net } from './model.js';

const FACES = ['inside', 'outside'] as const;

/** Film behind the windows of the whole nets. */
export const filmsOf = ({ pieces }: Pick<BoxNets, 'pieces'>): Film[] =>
  pieces.map(({ net, panel, face: side, outline, at }) => ({
    net,
    panel,
    side,
    outline: transform(outline, at),
  }));

/** Cuts and creases are seen on both faces, what the pen draws inside, and dots where they are stuck. */
export function faceMarks(nets: readonly Net[]): FaceMark[] {
  return nets.flatMap(net => [...strokeMarks(net), ...dotMarks(net)]);
}

const KINDS = { cut: 'slit', perforate: 'perforation', score: 'crease', draw: 'pen' } as const;

function strokeMarks({ id: net, panels }: Net): FaceMark[] {
  return panels.flatMap(({ id: panel, strokes }) =>
    strokes.flatMap(({ operation, path }): FaceMark[] => {
      if (operation === 'register') return [];
      const kind = KINDS[operation];
      const faces = kind === 'pen' ? (['inside'] as const) : FACES;
      return faces.map(side => ({ net, panel, side, kind, path }));
    }),
  );
}

function dotMarks(net: Net): FaceMark[] {
  const halves = netFacts.closureHalves(net);
  return halves.map(({ panel, face: side, at, diameter }, i) => {
    // The halves of each closure stand beside each other.
    const kind = net.closures[Math.floor(i / 2)]!.means ?? 'hook-and-loop';
    return { net: net.id, panel, side, kind, path: circle(at, diameter / 2) };
  });
}
