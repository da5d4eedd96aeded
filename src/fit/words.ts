/** Treats and arrangements in words. `mm` writes a length in the person's unit. */
import type { Arrangement, Treat } from '../model.js';

type Write = (mm: number) => string;

const NAMES = { block: 'block', round: 'round', ball: 'ball', pouch: 'pouch', stick: 'stick' };
const PLURALS = {
  block: 'blocks',
  round: 'rounds',
  ball: 'balls',
  pouch: 'pouches',
  stick: 'sticks',
};

/** "6 rounds of 40 mm, 20 mm high", "1 block of 30 x 20 x 15 mm". */
export function treatWords({ shape, count }: Pick<Treat, 'shape' | 'count'>, mm: Write): string {
  const name = (count === 1 ? NAMES : PLURALS)[shape.kind];
  return `${count} ${name} of ${measures(shape, mm)}`;
}

function measures(shape: Treat['shape'], mm: Write): string {
  switch (shape.kind) {
    case 'ball':
      return mm(shape.diameter);
    case 'round':
      return `${mm(shape.diameter)}, ${mm(shape.height)} high`;
    case 'stick':
      return `${mm(shape.diameter)}, ${mm(shape.length)} long`;
    case 'block':
    case 'pouch': {
      const size = [shape.length, shape.width, shape.height].map(mm).join(' x ');
      const squash = shape.kind === 'pouch' && shape.squash > 0;
      return squash ? `${size}, pressed by ${Math.round(shape.squash * 100)} %` : size;
    }
  }
}

/** "3 x 2, flat", "rows of 3 and 2 by turns, flat, in 2 layers", "on a wall of the box". */
export function arrangementWords(a: Arrangement): string {
  const layers = a.layers > 1 ? `${a.layers} layers` : '';
  const empty = a.spare > 0 ? `${a.spare} ${a.spare === 1 ? 'place' : 'places'} empty` : '';
  const wall = a.up === 'height' ? '' : 'box on its side';
  return [patternWords(a), layers, lieWords(a), wall, empty].filter(Boolean).join(', ');
}

function patternWords({ pattern, columns, rows, places, layers }: Arrangement): string {
  switch (pattern) {
    case 'grid':
      return `${columns} x ${rows}`;
    case 'staggered':
      return `${columns} x ${rows} staggered`;
    case 'nested':
      return `${columns} x ${rows} nested`;
    case 'mixed':
      return `${Math.ceil(places.length / layers)} both ways`;
  }
}

/** A round no higher than this share of its diameter is spoken of as a disc. */
const DISC = 0.7;

/** How the pieces lie, as people say of their shape. */
function lieWords({ treat: { shape }, lie, places, up }: Arrangement): string {
  switch (shape.kind) {
    case 'ball':
      return '';
    case 'block':
    case 'pouch':
      return lie === 'side' ? 'on edge' : lie;
    case 'stick':
      return places[0]?.axis === up ? 'standing' : 'lying';
    case 'round': {
      const stands = places[0]?.axis === up;
      const isDisc = shape.height <= DISC * shape.diameter;
      if (isDisc) return stands ? 'flat' : 'on the rim';
      return stands ? 'standing' : 'lying';
    }
  }
}
