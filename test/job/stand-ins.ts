/** Small variants and presets for tests of the job reader: their parameters are chosen to reach every
 *  kind of check, and they do not change when a real style does. */
import { defineMotif, definePattern, defineStyle } from '../../src/contracts.js';
import type { PresetKind, Presets } from '../../src/job/presets.js';
import { openPresets } from '../../src/job/presets.js';
import type { Library } from '../../src/job/read-job.js';
import type { Hinge, Layer, Panel, Path, Point } from '../../src/model.js';
import { ParamError } from '../../src/params.js';

const rectangle = (x0: number, y0: number, x1: number, y1: number): Path => ({
  start: [x0, y0],
  segments: [
    { kind: 'line', to: [x1, y0] },
    { kind: 'line', to: [x1, y1] },
    { kind: 'line', to: [x0, y1] },
    { kind: 'line', to: [x0, y0] },
  ],
  closed: true,
});
const panel = (id: string, outline: Path): Panel => ({
  id,
  role: 'wall',
  outline,
  holes: [],
  strokes: [],
});
const hinge = (parent: string, child: string, from: Point, to: Point): Hinge => ({
  parent,
  child,
  along: { start: from, segments: [{ kind: 'line', to }], closed: false },
  angle: Math.PI / 2,
});

/** Refuses tabs deeper than half its height, and boxes lower than 10 mm. */
export const crate = defineStyle({
  id: 'crate',
  summary: 'a crate',
  tags: [],
  example: { length: 60, width: 40, height: 20 },
  room: { lies: false },
  params: {
    tab: { kind: 'length', default: 'auto', least: 3, most: 60, help: 'tab' },
    mitreDeg: { kind: 'angleDeg', default: 15, least: 0, most: 45, help: 'mitre' },
    slats: { kind: 'count', default: 3, least: 1, most: 9, help: 'slats' },
    ratio: { kind: 'number', default: 0.5, least: 0, most: 1, help: 'ratio' },
    closing: { kind: 'choice', default: 'dot', choices: ['dot', 'ribbon'], help: 'closing' },
    handle: { kind: 'flag', default: false, help: 'handle' },
    brand: { kind: 'text', default: '', longest: 12, help: 'burnt in' },
  },
  build({ inside, thickness }, { tab }) {
    if (!(inside.height >= 10))
      throw new ParamError('height', inside.height, 'at least 10 mm', 'make the box higher');
    if (tab !== 'auto' && tab > inside.height / 2)
      throw new ParamError(
        'tab',
        tab,
        `at most ${inside.height / 2} mm, half of the height`,
        'make the tab smaller',
      );
    const { length: l, width: w, height: h } = inside;
    return [
      {
        id: 'box',
        title: 'Crate',
        thickness,
        root: 'base',
        panels: [
          panel('base', rectangle(0, 0, l, w)),
          panel('front', rectangle(0, -h, l, 0)),
          panel('back', rectangle(0, w, l, w + h)),
          panel('lid', rectangle(0, w + h, l, 2 * w + h)),
        ],
        hinges: [
          hinge('base', 'front', [0, 0], [l, 0]),
          hinge('base', 'back', [l, w], [0, w]),
          hinge('back', 'lid', [l, w + h], [0, w + h]),
        ],
        joins: [],
        closures: [],
      },
    ];
  },
});

const drum = defineStyle({
  id: 'drum',
  summary: 'a drum',
  tags: [],
  example: { length: 60, width: 60, height: 20 },
  params: {},
  build: ({ thickness }) => [
    {
      id: 'drum',
      title: 'Drum',
      thickness,
      root: 'top',
      panels: [panel('top', rectangle(0, 0, 1, 1))],
      hinges: [],
      joins: [],
      closures: [],
    },
  ],
});

const layer = (paper: string): Layer => ({
  id: paper,
  outline: rectangle(0, 0, 1, 1),
  holes: [],
  strokes: [],
  fills: [],
  paper,
  lift: 0,
});

/** Of two papers; refuses the word that its face lacks. */
const badge = defineMotif({
  id: 'badge',
  family: 'badges',
  summary: 'a badge',
  params: {
    size: { kind: 'length', default: 40, least: 10, most: 300, help: 'width' },
    textHeight: { kind: 'length', default: 'auto', least: 1, most: 50, help: 'of capitals' },
    text: { kind: 'text', default: '', longest: 20, help: 'a line of text' },
  },
  build({ text }) {
    if (text.includes('ż'))
      throw new ParamError(
        'text',
        text,
        'letters of the face',
        'it has no "ż": write it otherwise',
      );
    return [layer('main'), layer('eye')];
  },
});

const specks = definePattern({
  id: 'specks',
  summary: 'specks',
  params: { spacing: { kind: 'length', default: 5, least: 1, most: 50, help: 'spacing' } },
  build({ spacing }) {
    if (spacing === 13) throw new ParamError('spacing', spacing, 'not 13 mm', 'take 12 mm');
    return [];
  },
});

const FILES: Readonly<Record<PresetKind, Readonly<Record<string, string>>>> = {
  stock: {
    'cardstock-65lb-12x12':
      'summary: Card\nwidth: 12in\nheight: 12in\nweight: 65 lb cover\nbulk: 1.4\ncolour: "#fff"\n',
    'kraft-a4':
      'summary: Kraft\nwidth: 210\nheight: 297\nweight: 280 gsm\ncaliper: 0.4mm\n' +
      'grain: height\ncolour: "#B98F62"\n',
  },
  cutter: {
    'mat-12x12': `summary: Mat
width: 12in
height: 12in
margin: 1/4in
blade: { offset: 0.25mm, overcut: 0.5mm, compensated-by: cutter }
speed: { draw: 1, score: 1, perforate: 1, cut: 1, register: 1, travel: 1 }
`,
  },
  convention: {
    'okabe-ito': ['cut', 'score', 'perforate', 'draw', 'register']
      .map(o => `${o}: { colour: "#000", aci: 7 }`)
      .concat('summary: Plain')
      .join('\n'),
  },
  mark: {
    'ring-and-cross':
      'summary: Ring\nshape: ring-and-cross\nsize: 8mm\nstroke: 0.25mm\ninset: 0mm\ncount: 5\n',
  },
  palette: { windfall: 'summary: Windfall\nground: "#FBF3E4"\ninks: ["#B93A2B", "#EDA93F"]\n' },
  treat: {
    caramel: 'summary: Caramel\nblock: 32 x 20 x 18\ncount: 4\nlie: flat\n',
  },
  box: {},
  job: {},
};

export const presetsOf = (files: typeof FILES): Presets =>
  openPresets({ ids: kind => Object.keys(files[kind]), text: (kind, id) => files[kind][id] });

export const standIns: Library = {
  styles: [crate, drum],
  motifs: [badge],
  patterns: [specks],
  presets: presetsOf(FILES),
  tools: {
    letter: () => [],
    set: () => ({ regions: [], lines: [], baselines: [], capital: 1, up: () => [0, 1] }),
    seeded: () => () => 0.5,
  },
};
