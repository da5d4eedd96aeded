/** Pieces as they are painted: printed ones once, as images, so that turning the box costs no more. */
import type { PreviewPiece } from '../../preview-model.js';
import { edgeLight, shaded } from '../../shading.js';
import { veil } from './shade.js';

/** Images are no larger than this, px. */
const MOST_PX = 1800;
const INK = '#5b4a3c';

interface Printed {
  readonly image: HTMLCanvasElement;
  /** Pixels to the mm. */
  readonly k: number;
}

export class Papers {
  private readonly outlines: readonly Path2D[];
  private readonly images = new Map<number, Printed>();
  private readonly paths = new Map<string, Path2D>();

  constructor(private readonly pieces: readonly PreviewPiece[]) {
    this.outlines = pieces.map(p => new Path2D(p.paper));
  }

  /** The front of a piece. The context's transform takes the piece's path data to pixels, `scale` of them
   *  to the mm; `fall` is how far its shadow falls, px. */
  front(ctx: CanvasRenderingContext2D, number: number, light: number, scale: number, fall: number) {
    const piece = this.pieces[number]!;
    const outline = this.outlines[number]!;
    if (fall > 0) {
      const t = ctx.getTransform();
      ctx.setTransform(t.a, t.b, t.c, t.d, t.e + fall * 0.7, t.f + fall);
      ctx.fillStyle = 'rgb(43 29 16 / 0.2)';
      ctx.fill(outline, 'evenodd');
      ctx.setTransform(t);
    }
    if (piece.art.length === 0 && !piece.lines.draw && !piece.lines.score && !piece.back) {
      ctx.fillStyle = shaded(piece.colour, light);
      ctx.fill(outline, 'evenodd');
    } else {
      const { image, k } = this.imageOf(number, scale);
      const [left, , , top] = piece.box;
      ctx.drawImage(image, left - 1 / k, -top - 1 / k, image.width / k, image.height / k);
      ctx.fillStyle = veil(light);
      ctx.fill(outline, 'evenodd');
    }
    const ground = piece.art[0]?.colour ?? piece.colour;
    ctx.strokeStyle = shaded(ground, edgeLight(light));
    ctx.lineWidth = 0.8 / scale;
    ctx.stroke(outline);
  }

  back(ctx: CanvasRenderingContext2D, number: number, light: number, scale: number) {
    const outline = this.outlines[number]!;
    const { colour } = this.pieces[number]!;
    ctx.fillStyle = shaded(colour, light);
    ctx.fill(outline, 'evenodd');
    ctx.strokeStyle = shaded(colour, edgeLight(light));
    ctx.lineWidth = 0.8 / scale;
    ctx.stroke(outline);
  }

  /** Path data, read once. */
  path(d: string): Path2D {
    const known = this.paths.get(d) ?? new Path2D(d);
    this.paths.set(d, known);
    return known;
  }

  private imageOf(number: number, scale: number): Printed {
    const piece = this.pieces[number]!;
    const [left, bottom, right, top] = piece.box;
    const side = Math.max(right - left, top - bottom);
    const wanted = Math.min(scale * 1.25, MOST_PX / side);
    const known = this.images.get(number);
    if (known && known.k >= Math.min(scale, wanted) * 0.99) return known;
    const k = wanted;
    const image = document.createElement('canvas');
    image.width = Math.ceil((right - left) * k) + 2;
    image.height = Math.ceil((top - bottom) * k) + 2;
    const ctx = image.getContext('2d')!;
    ctx.setTransform(k, 0, 0, k, 1 - left * k, 1 + top * k);
    ctx.clip(this.outlines[number]!, 'evenodd');
    ctx.fillStyle = piece.colour;
    ctx.fillRect(left, -top, right - left, top - bottom);
    piece.art.forEach(({ colour, d }, i) => {
      // A printer has no white ink: white is the paper's own colour.
      ctx.fillStyle = i === 0 && colour === '#ffffff' ? piece.colour : colour;
      ctx.fill(new Path2D(d));
    });
    ctx.strokeStyle = INK;
    ctx.lineWidth = 0.35;
    ctx.lineCap = 'round';
    ctx.lineJoin = 'round';
    for (const d of [piece.lines.draw, piece.lines.score, piece.back])
      if (d) ctx.stroke(new Path2D(d));
    const printed = { image, k };
    this.images.set(number, printed);
    return printed;
  }
}
