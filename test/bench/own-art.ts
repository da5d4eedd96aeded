/** A drawing of one's own of 5,000 segments: read, cleaned and made into a piece with holes and lines. */
import { ownArt } from '../../src/motifs/own-art.js';
import { seeded } from '../../src/motifs/random.js';
import { fillParams } from '../../src/params.js';
import { cleanOutlines } from '../../src/tool/clean.js';
import { readOwnSvg } from '../../src/write/read-own-svg.js';
import { type Row, warmed } from './measure.js';

/** A wavy edge of 2,000 curves, 250 round holes of 8 sides, 1,000 drawn strokes. */
export function drawing(): string {
  const on = (i: number, n: number, r: number) => {
    const a = (2 * Math.PI * i) / n;
    return `${(100 + r * Math.cos(a)).toFixed(3)} ${(100 + r * Math.sin(a)).toFixed(3)}`;
  };
  const edge = Array.from({ length: 2000 }, (_, i) => {
    const [r, s] = i % 2 === 0 ? [90, 89.7] : [89.7, 90];
    return `C${on(i + 0.3, 2000, r)} ${on(i + 0.7, 2000, s)} ${on(i + 1, 2000, s)}`;
  });
  const grid = Array.from({ length: 250 }, (_, i) => [
    50 + (i % 25) * 4,
    60 + Math.floor(i / 25) * 8,
  ]);
  const holes = grid.map(([x, y]) => {
    const sides = Array.from({ length: 8 }, (_, k) => {
      const a = (Math.PI * k) / 4;
      return `${(x! + Math.cos(a)).toFixed(3)} ${(y! + Math.sin(a)).toFixed(3)}`;
    });
    return `<polygon points="${sides.join(' ')}"/>`;
  });
  const strokes = Array.from(
    { length: 1000 },
    (_, i) => `<path d="M${50 + (i % 50) * 2} ${64 + Math.floor(i / 50) * 4}l1.2 .4"/>`,
  );
  return (
    '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">' +
    `<g id="cut"><path d="M${on(0, 2000, 90)}${edge.join('')}z"/>${holes.join('')}</g>` +
    `<g id="draw">${strokes.join('')}</g></svg>`
  );
}

export async function own(): Promise<Row[]> {
  const source = drawing();
  const none = () => {
    throw new Error('no letters');
  };
  const tools = { letter: none, set: none, seeded: (n: number) => seeded(n) };
  const make = () => {
    const lines = readOwnSvg(source);
    const segments = lines.reduce((sum, l) => sum + l.path.segments.length, 0);
    if (segments !== 5000) throw new Error(`${segments} segments`);
    const motif = ownArt('x.svg', lines, cleanOutlines);
    return motif.build(fillParams(motif.params, { size: 150 }), tools);
  };
  const took = await warmed(make, 3, 9);
  return [{ what: 'own art of 5,000 segments', value: took, unit: 'ms', aim: 300 }];
}
