/** Which paper each layer of a motif is shown in: by its name, and otherwise where a motif has its own. */

const PAPERS: Readonly<Record<string, string>> = {
  main: '#c8563f',
  leaf: '#6f8f4e',
  stem: '#7a5230',
  eye: '#fffdf8',
  shine: '#f3c9b0',
  flesh: '#fbf0d8',
  core: '#f0dcae',
  pip: '#5b3a22',
  spot: '#fff7ea',
  cap: '#8a5a35',
};

const OWN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  pear: { main: '#b9b24a', shine: '#dcd88f' },
  acorn: { main: '#c98f4a', cap: '#7b5532' },
  mushroom: { foot: '#f6ead2', gill: '#dcbf9a' },
  'oak-leaf': { main: '#b9793a' },
};

/** For papers without a colour of their own: muted ones that go together. */
const OTHERS = ['#d9a441', '#8fa9a3', '#d8b9a8', '#7d6b8a', '#b7bd86', '#e6d3b0', '#5f7f86'];

export function paperColour(motif: string, paper: string): string {
  const own = OWN[motif]?.[paper] ?? PAPERS[paper];
  if (own) return own;
  let sum = 0;
  for (const c of paper) sum = (sum * 31 + c.codePointAt(0)!) % 9973;
  return OTHERS[sum % OTHERS.length]!;
}
