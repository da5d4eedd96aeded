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
  cheek: '#e79a84',
  wing: '#dfe7e2',
  stripe: '#4c3526',
  cap: '#8a5a35',
  lace: '#fdf6ea',
  back: '#f0d3c4',
  centre: '#efb443',
  'tier-2': '#d9785f',
  'tier-3': '#e9a58e',
};

const OWN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  seal: { main: '#f3dfb6' },
  greeting: { main: '#a8393f', mount: '#fbf0d8' },
  pear: { main: '#b9b24a', shine: '#dcd88f' },
  acorn: { main: '#c98f4a', cap: '#7b5532' },
  mushroom: { foot: '#f6ead2', gill: '#dcbf9a' },
  bee: { main: '#eeb446' },
  butterfly: { main: '#6d5a86', inner: '#d8a9b4', body: '#3f3344' },
  snail: { main: '#e2bf8d', shell: '#b0603f', whorl: '#d98f5f' },
  bird: { main: '#5f7f8c', breast: '#d9784f', wing: '#456472', beak: '#e0a23f' },
  fish: { main: '#7fa6a0', face: '#e9c9a0', fin: '#d9784f' },
  hedgehog: {
    main: '#f0d9b5',
    coat: '#5a4232',
    quills: '#8c6a4c',
    foot: '#d3a878',
    nose: '#3b2a20',
    apple: '#c8563f',
  },
  blossom: { main: '#f4cfc6', 'tier-2': '#f9e3dc', centre: '#c9a23f' },
  daisy: { main: '#e8e2d0', 'tier-2': '#fffaf0', 'tier-3': '#ffffff' },
  dahlia: { main: '#a8393f', 'tier-2': '#c8563f', 'tier-3': '#de8159', 'tier-4': '#eeb08a' },
  'rolled-flower': { main: '#c9586a' },
  label: { main: '#f8eed9' },
  tag: { main: '#d9b98a', ring: '#c8563f' },
  bow: { main: '#c8563f', tail: '#a8462f', knot: '#d9705a' },
  'ribbon-tails': { main: '#5f8578', back: '#456a60' },
  banner: { main: '#f8eed9', back: '#e0cda6', fold: '#b79a68' },
  pennants: { main: '#c8563f', back: '#efb443', third: '#6f9587', cord: '#8a6f52' },
  'scallop-strip': { main: '#d9785f' },
  'zigzag-strip': { main: '#7f9a55' },
  'bracket-strip': { main: '#5f8578' },
  'lace-strip': { main: '#fdf6ea' },
  gem: { main: '#3f7f86', light: '#8cc0bf', dark: '#2c5f69', table: '#66a5a8' },
  pebble: {
    main: '#8b8f8e',
    second: '#a99f92',
    third: '#6f7b80',
    fourth: '#c2b7a6',
    vein: '#f0ebe0',
  },
  button: { main: '#c8563f', rim: '#d9705a', thread: '#f8eed9' },
  star: { main: '#e3b04b' },
  sunburst: { main: '#efb443', back: '#df8f3c', disc: '#fbe3a4' },
  snowflake: { main: '#9dbcc6' },
  leaf: { main: '#7f9a55' },
  sprig: { main: '#7d9a7c' },
  branch: { main: '#6f8f4e', berry: '#b5453c' },
  wreath: { main: '#6f8f4e', back: '#4f7356', berry: '#c0392f' },
  cloud: { main: '#fffaf0', pale: '#c9d8da' },
  sun: { main: '#efb443', ray: '#df8f3c', disc: '#f7d272' },
  moon: { main: '#f3d896', star: '#df8f3c' },
  drop: { main: '#5f8fa6', inner: '#8db8c6', shine: '#e6f1f0' },
  flame: { main: '#d5613a', middle: '#ee9f45', glow: '#f9dc8c' },
  house: { main: '#f3e2c4', roof: '#b5553c', door: '#5f7f6a', lit: '#f4cf73', chimney: '#9a6b4c' },
  tree: { main: '#6b8a4b', light: '#87a45f', grass: '#a9b96f', apple: '#c8563f' },
  'fir-tree': { main: '#4f7356', light: '#67895f', star: '#efb443' },
  candle: {
    main: '#f6ead2',
    wax: '#fffaf0',
    holder: '#5f7f86',
    flame: '#ee9f45',
    glow: '#f9dc8c',
    wick: '#4c3526',
  },
  gift: { main: '#5f8578', lid: '#6f9587', ribbon: '#d5613a', inside: '#a8462a' },
  'cake-slice': {
    main: '#e3b878',
    filling: '#b8475a',
    icing: '#f6d9d3',
    cream: '#fffaf0',
    cherry: '#b02f3c',
  },
  balloon: { main: '#cf5b4a', string: '#9a8468' },
  key: { main: '#c79a45', trim: '#a87a2f' },
  'love-letter': {
    main: '#d9b48a',
    inside: '#b98f62',
    flap: '#c9a276',
    letter: '#fffaf0',
    seal: '#b93a2b',
  },
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
