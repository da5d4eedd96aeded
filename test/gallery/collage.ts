/** Pictures side by side, as one PNG. */
import { Resvg } from '@resvg/resvg-js';

export interface Tile {
  readonly svg: string;
  readonly width: number;
}

/** Pixels between the tiles. */
const GAP = 14;

const rendered = (svg: string, width: number) =>
  new Resvg(svg, { fitTo: { mode: 'width', value: width } }).render();

/** Rows of pictures, each row's tiles cut to its lowest one's height, on one ground. */
export function collage(rows: readonly (readonly Tile[])[], ground = '#efe8dc'): Uint8Array {
  const parts: string[] = [];
  let y = 0;
  let widest = 0;
  for (const row of rows) {
    const tiles = row.map(t => rendered(t.svg, t.width));
    const height = Math.max(...tiles.map(t => t.height));
    let x = 0;
    for (const tile of tiles) {
      const data = Buffer.from(tile.asPng()).toString('base64');
      const top = y + (height - tile.height) / 2;
      parts.push(
        `<image x="${x}" y="${top}" width="${tile.width}" height="${tile.height}" href="data:image/png;base64,${data}"/>`,
      );
      x += tile.width + GAP;
    }
    widest = Math.max(widest, x - GAP);
    y += height + GAP;
  }
  const [w, h] = [widest, y - GAP];
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}"><rect width="${w}" height="${h}" fill="${ground}"/>${parts.join('')}</svg>`;
  return new Resvg(svg).render().asPng();
}
