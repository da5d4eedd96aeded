/** What the sections of a guide share: how closely they are set, and their styles of text. */
import { lineHeight, type PageFlow, type TextStyle } from './page-flow.js';

/** How closely things are set: the first that needs no more than four pages is taken. */
export interface Density {
  /** Pieces of the cut list in a row, and the most that are listed. */
  readonly abreast: 1 | 2;
  readonly rows: number;
  readonly rowHeight: number;
  /** Pictures of steps in a row. */
  readonly steps: number;
  /** The most of the page that a pattern takes. */
  readonly pattern: number;
  /** The em of running text, mm. */
  readonly text: number;
  /** Lines of the recipe side by side. */
  readonly hand: 2 | 3;
}

export const SECTION: TextStyle = { size: 5.2, bold: true, colour: 'accent', leading: 1.25 };
export const GAP = 7;

export const body = ({ text }: Density): TextStyle => ({ size: text });
export const strong = ({ text }: Density): TextStyle => ({ size: text, bold: true });
export const quiet = ({ text }: Density): TextStyle => ({ size: text, colour: 'faint' });

/** A heading that stays with the beginning of what follows. */
export function heading(flow: PageFlow, title: string, follows: number): void {
  if (!flow.fresh) flow.y += GAP;
  flow.need(lineHeight(SECTION) + 2 + follows);
  flow.y = flow.as('H2', () => flow.lines([title], flow.left, flow.y, SECTION)) + 1.2;
}
