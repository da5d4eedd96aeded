/** Pictures as rows of numbers, from the top; pixel (i, j) covers [i, i + 1] × [j, j + 1], y down. */

/** One number a pixel, 0 black to 255 white. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}
/** A picture as a file has it: 1 number (grey) or 3 (red, green, blue) a pixel. */
export interface Picture extends Grey {
  readonly channels: 1 | 3;
  /** Pixels in an inch across and down, where the file says so. */
  readonly dpi?: readonly [number, number];
}

/** Rec. 601 luma in 1/256ths: what a grey scan shows of colours. */
const [RED, GREEN, BLUE] = [77, 150, 29];

export function greyOf(picture: Picture): Grey {
  const { width, height, data, channels } = picture;
  if (channels === 1) return { width, height, data };
  const grey = new Uint8Array(width * height);
  for (let i = 0, k = 0; i < grey.length; i++, k += 3) {
    grey[i] = (RED * data[k]! + GREEN * data[k + 1]! + BLUE * data[k + 2]!) >> 8;
  }
  return { width, height, data: grey };
}

/** Means of `by` × `by` pixels; what is left over at the right and the bottom is dropped. */
export function shrunk({ width, height, data }: Grey, by: number): Grey {
  if (by === 1) return { width, height, data };
  const [w, h] = [Math.floor(width / by), Math.floor(height / by)];
  const small = new Uint8Array(w * h);
  const sums = new Uint32Array(w);
  const area = by * by;
  for (let y = 0; y < h; y++) {
    sums.fill(0);
    for (let k = 0; k < by; k++) {
      let at = (y * by + k) * width;
      for (let x = 0; x < w; x++) {
        let sum = 0;
        for (let i = 0; i < by; i++) sum += data[at++]!;
        sums[x]! += sum;
      }
    }
    for (let x = 0; x < w; x++) small[y * w + x] = sums[x]! / area + 0.5;
  }
  return { width: w, height: h, data: small };
}

/** Bilinear between the middles of pixels; the border goes on outside. */
export function sampled({ width, height, data }: Grey, x: number, y: number): number {
  const u = Math.min(Math.max(x - 0.5, 0), width - 1);
  const v = Math.min(Math.max(y - 0.5, 0), height - 1);
  const [i, j] = [Math.min(Math.floor(u), width - 2), Math.min(Math.floor(v), height - 2)];
  const [p, q] = [u - i, v - j];
  const at = j * width + i;
  const top = data[at]! + p * (data[at + 1]! - data[at]!);
  const low = data[at + width]! + p * (data[at + width + 1]! - data[at + width]!);
  return top + q * (low - top);
}
