/** The structure of a PDF, read back by pdf.js: what who does not see the page is told, in order. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface Element {
  readonly role: string;
  readonly alt?: string;
  readonly children: readonly Element[];
  readonly text: string;
}

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly id?: string;
  readonly children?: readonly Node[];
}
interface Mark {
  readonly type?: string;
  readonly id?: string;
  readonly tag?: string;
  readonly str?: string;
  readonly hasEOL?: boolean;
}

/** The elements of each page, and the texts there that are neither in one nor an artifact. */
export async function structureOf(bytes: Uint8Array) {
  const pdf = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const pages: Element[] = [];
  const [loose, ornament]: [string[], string[]] = [[], []];
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n);
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    const said = new Map<string, string>();
    const open: Mark[] = [];
    for (const item of items as Mark[]) {
      if (item.type?.startsWith('begin')) open.push(item);
      else if (item.type === 'endMarkedContent') open.pop();
      else if (item.str !== undefined) {
        // pdf.js tells the end of a line instead of its space.
        const text = item.hasEOL ? `${item.str} ` : item.str;
        const { id, tag } = open.at(-1) ?? {};
        if (id) said.set(id, (said.get(id) ?? '') + text);
        else (tag === 'Artifact' ? ornament : loose).push(text);
      }
    }
    const read = ({ role = '', alt, children = [] }: Node): Element => ({
      role,
      ...(alt !== undefined && { alt }),
      children: children.filter(c => c.role).map(read),
      text: children
        .map(c => (c.id ? (said.get(c.id) ?? '') : ''))
        .join('')
        .replace(/\s+/g, ' '),
    });
    const tree = (await page.getStructTree()) as Node | null;
    if (tree) pages.push(...(tree.children ?? []).map(read));
  }
  const words = (list: string[]) => list.map(t => t.trim()).filter(t => t !== '');
  return { pages, loose: words(loose), ornament: words(ornament) };
}

/** All elements, in the order in which they are read. */
export const inOrder = (elements: readonly Element[]): Element[] =>
  elements.flatMap(e => [e, ...inOrder(e.children)]);

/** What breaks the structure: an element where it does not belong (ISO 32000-1, 14.8.4), a figure that
 *  says nothing. */
export function misplaced(elements: readonly Element[], within = ''): string[] {
  const holders: Readonly<Record<string, readonly string[]>> = {
    Document: [''],
    LI: ['L'],
    Lbl: ['LI'],
    LBody: ['LI'],
    TR: ['Table'],
    TH: ['TR'],
    TD: ['TR'],
  };
  return elements.flatMap(({ role, alt, children }) => [
    ...(holders[role] && !holders[role].includes(within) ? [`${role} in ${within}`] : []),
    ...(role === 'Figure' && !alt ? ['Figure without words'] : []),
    ...misplaced(children, role),
  ]);
}
