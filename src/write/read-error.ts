/** A file that cannot be read: what is wrong, where, and what to do about it. */
export class ReadError extends Error {
  override readonly name = 'ReadError';
  constructor(
    readonly what: string,
    /** A line, an element or a field of the file; '' for the file as a whole. */
    readonly where: string,
    readonly advice: string,
  ) {
    super(`${where === '' ? '' : `${where}: `}${what}; ${advice}`);
  }
}

/** Refuses a text that is longer than `most` characters before anything looks into it. */
export function checkSize(text: string, most: number, advice: string): void {
  if (!(text.length <= most)) {
    const mb = (n: number) => (n / 1e6).toFixed(1);
    throw new ReadError(`${mb(text.length)} MB, at most ${mb(most)} MB are read`, '', advice);
  }
}
