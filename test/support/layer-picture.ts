/** Layers of a motif as one SVG: for goldens, for looking, and for counting pixels. */
import { bounds } from '../../src/geom/index.js';
import type { Layer } from '../../src/model.js';
import { data, num } from './path-data.js';

const LINES = {
  draw: '#0072B2',
  score: '#D55E00',
  perforate: '#CC79A7',
  cut: '#000000',
  register: '#009E73',
} as const;

/** Every layer a group named after it and its paper; seen through, so that none hides another. */
export function layersPicture(layers: readonly Layer[]): string {
  const b = bounds(...layers.map(l => l.outline));
  const box = [b.minX - 1, -b.maxY - 1, b.maxX - b.minX + 2, b.maxY - b.minY + 2].map(num);
  const groups = layers.map(l => {
    const cut = [l.outline, ...l.holes].map(data).join('');
    const fills = l.fills.map(
      f =>
        `<path fill="${f.colour}" fill-rule="evenodd" d="${f.regions.flatMap(r => [r.outer, ...r.holes].map(data)).join('')}"/>`,
    );
    const strokes = l.strokes.map(
      s => `<path fill="none" stroke="${LINES[s.operation]}" d="${data(s.path)}"/>`,
    );
    return [
      `<g id="${l.id}" data-paper="${l.paper}" data-lift="${l.lift}" stroke-width="0.3">`,
      `<path fill="#d9a441" fill-opacity="0.35" fill-rule="evenodd" stroke="#000" d="${cut}"/>`,
      ...fills,
      ...strokes,
      '</g>',
    ].join('\n');
  });
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${box[2]}mm" height="${box[3]}mm" ` +
    `viewBox="${box.join(' ')}">\n${groups.join('\n')}\n</svg>\n`
  );
}

/** One layer black on white, its bounds filling a square of `side` pixels with `margin` around. */
export function layerMask(layer: Layer, side: number, margin: number) {
  const b = bounds(layer.outline);
  const scale = side / Math.max(b.maxX - b.minX, b.maxY - b.minY);
  const whole = side + 2 * margin;
  const cut = [layer.outline, ...layer.holes].map(data).join('');
  const place =
    `translate(${margin} ${margin}) scale(${scale}) ` + `translate(${-b.minX} ${b.maxY})`;
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${whole}" height="${whole}">` +
    `<rect width="${whole}" height="${whole}" fill="#fff"/>` +
    `<path transform="${place}" fill="#000" fill-rule="evenodd" d="${cut}"/></svg>`;
  return { svg, scale };
}
