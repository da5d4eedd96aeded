/** The inks of a palette, whose first colour is the ground. */

/** The n-th ink, going round when there are fewer. A palette of a ground alone prints on it in
 *  nothing else: an error, since the pattern could not be seen. */
export function inkOf(palette: readonly string[], n: number): string {
  const inks = palette.length - 1;
  if (!(inks > 0)) throw new RangeError('a palette needs a ground and at least one ink');
  return palette[1 + (((n % inks) + inks) % inks)]!;
}
