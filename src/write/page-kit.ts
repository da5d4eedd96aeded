/** What writers of printed pages work with beside the page. */
export interface PageKit {
  /** The files of one face, in TTF, OTF or WOFF: each character comes from the first that has it. */
  readonly font: Uint8Array | readonly Uint8Array[];
  /** Resolution of pages as pictures, pixels an inch. */
  readonly dpi: number;
}
