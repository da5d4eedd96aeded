/**
 * All that the guide, the folding preview and the contact sheet say, in English. Another language is
 * another file of this shape: it is given names, lengths and numbers, and makes sentences of them. Lengths
 * come in words, with their unit. Texts with `{braces}` are filled in where they stand.
 */

const and = (list: readonly string[]): string =>
  list.length < 2 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} and ${list.at(-1)}`;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const many = (n: number, one: string, more = `${one}s`): string => `${n} ${n === 1 ? one : more}`;
/** Names that end in a number take no article. */
const the = (names: readonly string[]): string =>
  /\d$/.test(names[0] ?? '') ? and(names) : `the ${and(names)}`;
/** A list of names too long to be read gives way to what is seen of them. */
const MOST_NAMES = 6;
const shown = (names: readonly string[], count: number): string =>
  names.length > MOST_NAMES ? `the ${count} tinted panels` : the(names);

/** In a sentence: "the base wall". */
const partIn = (part: string): string => `the ${part.charAt(0).toLowerCase()}${part.slice(1)}`;
const plural = (noun: string): string => noun.replace(/tooth$/, 'teeth').replace(/([^h])$/, '$1s');

/** "The right" is a side before it is a panel. */
const panelCalled = (name: string): string => (/\d$/.test(name) ? name : `the ${name} panel`);

const MEANS = {
  'hook-and-loop': 'hook-and-loop dot',
  sticker: 'sticker',
  magnet: 'magnet',
} as const;

const FOLD = {
  up: 'Fold up',
  back: 'Fold back, away from you,',
  over: 'Fold right over',
  curl: 'Curl round',
} as const;

const SIDE = {
  back: 'its back, scored first',
  face: 'its face, done next',
} as const;

export const ENGLISH = {
  lang: 'en',

  /** A panel as it is called: numbers in a row come as one name. */
  panel: (id: string): string => id.replaceAll('-', ' '),
  panelRange: (stem: string, from: number, to: number): string =>
    `${plural(stem.replaceAll('-', ' '))} ${from} to ${to}`,
  /** A part of a box, by the title that its style gives it in English. */
  partTitle: (title: string): string => title.replace(': ', ' '),
  /** What a paper or a treat is called: by its id what the preset's summary says, in this language. A
   *  person's own presets say it as they do. */
  called: (_id: string, summary: string): string => summary,
  portion: (part: string, number: number, count: number): string =>
    `${part}, part ${number} of ${count}`,
  /** What a feature of a box is called. */
  feature: (id: string): string => id.replaceAll('-', ' '),
  filmPiece: (feature: string, panel: string): string =>
    `Film behind the ${feature} of ${the([panel])}`,
  /** A layer of a decoration: a motif's own, `backing` or `shadow`. */
  layerPiece: (decoration: string, layer: string, number?: number, said?: string): string =>
    `${capital(decoration.replaceAll('-', ' '))}, ${layer.replaceAll('-', ' ')}${
      number === undefined ? '' : ` ${number}`
    }${said === undefined ? '' : ` “${said}”`}`,

  // ---- The head -----------------------------------------------------------------------------------

  inside: (size: string): string => `${size} inside`,
  insideRound: (across: string, height: string): string =>
    `${across} across and ${height} high inside`,
  outside: (size: string): string => `about ${size} over all`,
  make: (count: number): string => (count === 1 ? 'make 1' : `make ${count}`),
  closed: (title: string): string => `${title}, closed, as it looks when it is done.`,

  // ---- What is needed -----------------------------------------------------------------------------

  needs: 'You need',
  paper: 'Paper',
  paperRow: (sheets: number, id: string, paper: string, used: number): string =>
    `${sheets} × ${id}: ${paper}${used > 0 ? `; ${used} % used` : ''}`,
  cost: (cost: string, all: boolean): string =>
    all ? `Paper costs ${cost} in all` : `Paper costs ${cost}, not counting what has no price`,
  sticking: 'To stick with',
  flaps: (length: string): string => `Glue or double-sided tape for flaps: about ${length}`,
  layers: (length: string): string => `Glue for flat layers, along their edges: about ${length}`,
  foam: (squares: number, height: string): string =>
    `About ${many(squares, 'foam square')} of ${height}`,
  closure: (means: keyof typeof MEANS, count: number, diameter: string): string =>
    means === 'sticker'
      ? `${many(count, MEANS[means])}, ${diameter} across`
      : `${many(count, `${MEANS[means]} pair`)}, ${diameter} across`,
  ribbon: (length: string): string => `Ribbon: about ${length}, with a bow`,
  tools: 'Tools',
  toolsOf: (score: boolean): readonly string[] => [
    'Cutting machine and mat; or ruler, craft knife and cutting mat',
    ...(score ? ['Bone folder, or a ballpoint that is empty, to score and crease'] : []),
    'Pencil, and small clips to hold what is glued until it is dry',
  ],

  // ---- Cut list -----------------------------------------------------------------------------------

  pieces: 'Pieces to cut',
  piecesHead: ['Piece', 'How many', 'Paper', 'Size', 'How it is made'] as readonly string[],
  more: '{count} more kinds of pieces stand in the guide for the browser, the .guide.html file beside this one.',
  turnedOver:
    'Where it says score back, do that first: lay the whole sheet with the side up that will be outside, its lower left corner against your stops, and score the .back file. Turn it as you turn a page, its lower edge against the same stop, and do the .cut file of the same name. Measure the sheet before: the lines meet as well as its width is true.',
  how: (print: boolean, score: boolean, draw: boolean, back: boolean): string =>
    capital(
      [
        print ? 'print first' : '',
        back ? 'score back' : '',
        draw ? 'draw' : '',
        score ? 'score' : '',
        'cut',
      ]
        .filter(s => s !== '')
        .join(', '),
    ),

  // ---- The flat pattern -----------------------------------------------------------------------------

  pattern: 'The flat pattern',
  patternIntro: (unit: 'mm' | 'in'): string =>
    `Seen from the side that will be inside, and drawn smaller than it is. Lengths are in ${
      unit === 'in' ? 'inches, to the nearest 1/16' : 'millimetres'
    }.`,
  patternTold: (title: string, width: string, height: string): string =>
    `${title} in the flat, ${width} wide and ${height} high, with its folds and their distances.`,
  patternTitle: (title: string, count: number): string =>
    count > 1 ? `${title}: cut ${count} for each box` : title,
  legend: {
    cut: 'cut',
    valley: 'fold toward you',
    mountain: 'fold away from you',
    perforate: 'tear line',
    draw: 'drawn mark',
    glue: 'glue here',
    back: 'glue on the back',
    dot: 'dot, sticker or magnet',
  },
  curved: (letter: string, length: string, rise: string): string =>
    `${letter}: ${length} along the curve, which rises ${rise}`,
  lettered: (letter: string, length: string, radius?: string): string =>
    radius === undefined ? `${letter}: ${length}` : `${letter}: ${length} round, radius ${radius}`,
  hole: (letter: string, size: string, round: boolean, fold?: string): string =>
    `${letter}: hole, ${size}${round ? ' across' : ''}${
      fold === undefined ? '' : `, its middle ${fold} from the fold`
    }`,
  unlettered: (kinds: number): string =>
    `${many(kinds, 'more length')} of slanted or curved lines: take them from the cut file.`,

  // ---- By hand --------------------------------------------------------------------------------------

  byHand: 'Without a cutting machine',
  byHandIntro: 'With a scoring board or a ruler. Measure from the left edge, as the blank lies.',
  recipe: {
    blank: (title: string, size: string): string =>
      `${title}: cut a blank of ${size}. The side that faces you will be inside.`,
    lay: (side: string): string => `Lay its ${side} side along the fence.`,
    turn: 'Turn it a quarter clockwise.',
    valleys: (marks: string): string => ` Score at ${marks}.`,
    mountains: (marks: string): string => ` Score at ${marks} to fold away from you.`,
    parts: 'Only a part of these, measured from below:',
    cuts: 'Cut along:',
    run: (from: string, to: string): string => `${from} to ${to}`,
    away: 'Turn it back. Cut away, from the left and from below:',
    cell: (x: string, y: string): string => `${x} across, ${y} up`,
    slants: 'Cut straight, from the left and from below:',
    slant: (from: string, to: string): string => `from ${from} to ${to}`,
    mitres: 'Lean in the sides of the flaps, over their whole depth, with the fold below:',
    mitre: (panel: string, depth: string, lean: string): string =>
      `${panel} (${depth} deep): ${lean}`,
    either: (length: string): string => `${length} on either side`,
    left: (length: string): string => `${length} on the left`,
    right: (length: string): string => `${length} on the right`,
    none: {
      curled: (panel: string): string => `${panel} is curled: no ruler marks it`,
      round: (panel: string): string => `${panel} has no straight side: no ruler marks it`,
      curved: 'most of its outline is curved: no ruler marks it',
      slanted: (scores: number): string =>
        `${scores} of its ${scores === 1 ? 'score is' : 'scores are'} not parallel to the edges of the blank`,
    },
    noneFor: (titles: readonly string[], why: string): string =>
      titles.length > 1
        ? `Curves and slanted folds have no marks on a ruler: print the cut file at full size, and trace ${and(titles)}.`
        : `${titles[0]} cannot be scored by marks alone: ${why}. Print the cut file at full size, and trace it.`,
  },

  // ---- Steps ----------------------------------------------------------------------------------------

  steps: 'Fold and glue',
  stepsIntro: (glue: boolean): string =>
    `Crease every fold first and open it again. In each picture the tinted panels move${
      glue ? ', and glue goes where it is hatched' : ''
    }.`,
  stepsRoom: 'Put the wrapped treats in before the last fold.',
  ofPart: (part: string, text: string): string =>
    `${part}: ${text.charAt(0).toLowerCase()}${text.slice(1)}`,
  fold: (how: keyof typeof FOLD, names: readonly string[], count: number): string =>
    `${FOLD[how]} ${shown(names, count)}.`,
  glue: (names: readonly string[], onto: string, face: 'inside' | 'outside'): string =>
    `Glue ${the(names)} to the ${face} of ${panelCalled(onto)}.`,
  tuck: (names: readonly string[], onto: readonly string[]): string =>
    `Tuck ${the(names)} in behind ${the(onto)}.`,
  hook: (names: readonly string[], onto: readonly string[]): string =>
    `Slip the edge of ${the(names)} inside ${the(onto)}.`,
  ring: (names: readonly string[]): string =>
    `Slip each of ${the(names)} under its neighbour, all the way round.`,
  lock: (names: readonly string[], onto: readonly string[]): string =>
    `The slits of ${the(onto)} catch ${the(names)}.`,
  film: (panel: string, feature: string): string =>
    `Glue the film behind the ${feature} of ${the([panel])}, on the inside, while all is flat.`,
  splice: (parts: number, joints: readonly (readonly [flap: string, onto: string])[]): string =>
    `The pattern is larger than the sheet, so it comes in ${parts} parts. Glue ${and(
      joints.map(([flap, onto]) => `${the([flap])} under ${the([onto])}`),
    )} while all is flat.`,
  seat: (part: string, onto: string, names: readonly string[]): string =>
    names.length === 1 && !/\d/.test(names[0]!)
      ? `Glue ${partIn(part)} to ${partIn(onto)}.`
      : `Glue ${partIn(part)} to ${partIn(onto)}, by ${the(names)}.`,
  join: (parts: readonly string[]): string => `Put ${and(parts.map(partIn))} together.`,
  tie: (names: readonly string[]): string =>
    `Thread a ribbon through the holes of ${the(names)}, and tie a bow.`,
  thread: 'Thread the ribbon through its slots, and tie a bow.',
  closures: (rows: readonly string[]): string =>
    `Stick on ${and(rows)}, each half where it is marked.`,
  stepTold: (number: number): string => `Step ${number}: the box on its way.`,

  // ---- Decorating -----------------------------------------------------------------------------------

  decorating: 'Decorate',
  decoratingIntro:
    'What is listed first lies lowest. Faces are easiest to dress while the paper is flat, before it is glued.',
  decoratingAlone: 'What is listed first lies lowest.',
  face: (panel: string, face: 'inside' | 'outside', part?: string): string =>
    `${part === undefined ? '' : `${part}: `}${capital(panel)}, on the ${face}:`,
  stack: 'Lay the layers on each other:',
  layer: (name: string, copies: number, lift: string): string =>
    `${name}${copies > 1 ? `, ${copies} of them` : ''}${lift === '' ? '' : `, on foam of ${lift}`}`,
  layerRun: (stem: string, from: number, to: number, layer: string): string =>
    `${capital(stem.replaceAll('-', ' '))} ${from} to ${to}, ${layer.replaceAll('-', ' ')}`,
  moreLayers: (count: number): string =>
    `and ${count} more: manifest.json, beside this guide, has all of them in this order`,
  faceTold: (panel: string): string => `${panel} with its layers in place.`,

  // ---- Scale, care, foot ------------------------------------------------------------------------------

  scale: 'Is it true to size?',
  scaleText:
    'Lay a ruler on the bar. If it is longer or shorter, print again at actual size (100 %), before you trust any printed sheet.',
  scaleLabels: ['100 mm', '4 in'] as readonly string[],
  care: 'Take care',
  cautions: {
    blades:
      'Blades are sharp. An adult changes them, caps them after use, and keeps used ones in a closed tin.',
    'small-parts':
      'Dots, gems, foam and small paper pieces are kept away from small children, who could swallow them.',
    magnets:
      'Magnets are dangerous when swallowed: never give a box with magnets to a small child, and call a doctor at once if one is missing.',
    food: 'Craft paper, ink and glue are not made for food. Keep treats wrapped, or line the box with paper sold for food.',
    local: 'Where local rules on toys, food or blades say more, they come first.',
  },
  foot: 'Page {page} of {pages}',

  // ---- The folding preview ----------------------------------------------------------------------------

  preview: {
    inside: (size: string): string => `Inside ${size}`,
    boxes: (count: number, paper: string): string => `${many(count, 'box', 'boxes')} of ${paper}`,
    joined: 'Shown with its parts glued to each other',
    sheet: (id: string, paper: string, alike: number, side?: 'face' | 'back'): string =>
      `${id}${side === undefined ? '' : `, ${SIDE[side]}`}: ${paper}${
        alike > 1 ? `, ${alike} alike` : ''
      }`,
    holds: (kinds: readonly (readonly [name: string, count: number])[], more: number): string =>
      `${kinds.map(([name, count]) => `${count} × ${name}`).join('; ')}${
        more > 0 ? `; and ${many(more, 'more kind')}` : ''
      }`,
    onFace: (face: string, layers: readonly string[], more: number): string =>
      `${face} ${layers.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`,
    foldAll: (part: string): string => `Fold ${partIn(part)}.`,
    standUp: 'Stand the box up.',
    placed: (part: string, how: 'glued' | 'lid' | 'put'): string => {
      const name = partIn(part);
      if (how === 'lid') return `Put ${name} on.`;
      return how === 'glued' ? `Glue ${name} in its place.` : `Put ${name} in its place.`;
    },
    clear: 'The clear space inside',
    treat: (count: number, what: string, kept: string): string =>
      `${count} × ${what}, with ${kept} kept clear`,
    treats: { block: 'block', pouch: 'pouch', round: 'round', stick: 'stick', ball: 'ball' },
    /** What the page says by itself. */
    page: {
      title: '{title}: folding preview',
      noScript: 'This page folds the box with a program of its own: let it run scripts.',
      foot: 'Made with Foldwright from the same nets and sheets as the cut files. Nothing is loaded from elsewhere.',
      picture: '{title} in the round',
      flatNow: 'Flat. Steps to go: {steps}.',
      now: 'Step {step} of {steps}: {told}',
      closedNow: 'Closed.',
      closedAfter: 'Closed, after step {step}: {told}',
      play: 'Play',
      pause: 'Pause',
      lift: 'Lift the layers',
      ghost: 'What goes inside',
      room: 'The clear space',
      reset: 'Reset the view',
      point:
        'Point at a piece or tap it to be told what it is. Tab goes to a sheet, arrow keys from piece to piece.',
      foldedBox: 'Folded box',
      hands: 'Drag to turn, pinch to go nearer. Or arrow keys, + and −.',
      back: 'One step back',
      on: 'One step on',
      fold: 'Fold',
      order: 'In this order',
      folded: 'Folded',
      flat: 'Flat sheets',
      view: 'View',
      theme: 'Dark or light',
      show: 'Show',
      turned:
        'Where a sheet has a back, do it first. It is seen as it lies for the machine: turned as a page is, so that left is right.',
      art: 'printed art',
      draw: 'draw',
      score: 'score',
      perforate: 'perforate',
      cut: 'cut',
      register: 'register',
    },
  },

  // ---- The contact sheet ------------------------------------------------------------------------------

  contact: {
    title: (title: string): string => `${title}: contact sheet`,
    told: (items: number, sheets: number, time: string): string =>
      `${many(items, 'item')} on ${many(sheets, 'sheet')}, ${time} of cutting.`,
    foot: 'Made with Foldwright from manifest.json. Nothing is loaded from elsewhere.',
    find: 'Find',
    all: 'all',
    sort: 'Sort',
    sorts: {
      order: 'as in the job',
      name: 'by name',
      size: 'by size, the largest first',
      sheets: 'by sheets, the most first',
      seconds: 'by cutting time, the longest first',
    },
    shown: '{count} of {all} shown',
    style: 'Style',
    paper: 'Paper',
    paperCalled: (id: string, paper: string): string => `${id}: ${paper}`,
    insideOf: (size: string): string => `${size} inside`,
    count: 'Count',
    sheets: 'Sheets',
    cutting: 'Cutting',
    styleCalled: (id: string): string => id,
    folded: (title: string): string => `${title}, folded`,
    layered: (title: string): string => `${title}, as it is layered`,
    net: (title: string): string => `The net of ${title}`,
    sheetsOf: (copies: number, paper: string): string => `${copies} of ${paper}`,
    sheetsOfSeveral: (copies: number, papers: number): string => `${copies} of ${papers} papers`,
    sheet: (copies: number, id: string, paper: string): string => `${copies} × ${id}, ${paper}`,
    /** By the ending of the page's file. */
    pages: {
      'preview.html': 'See it fold',
      'guide.html': 'Guide',
      'guide.pdf': 'Guide PDF',
    } as Readonly<Record<string, string>>,
    files: 'Files',
    filesOf: (title: string): string => `Files of ${title}`,
    file: (title: string, what: string): string => `${title}: ${what}`,
    first: (title: string, shown: number, all: number): string =>
      `${title}: the first ${shown} of ${all}`,
    seconds: (s: number): string => `${s} s`,
    minutes: (m: number): string => `${m} min`,
    hours: (h: number): string => `${h.toFixed(1)} h`,
  },
} as const;

/** What another language has to say. */
export type Words = { readonly [K in keyof typeof ENGLISH]: Loose<(typeof ENGLISH)[K]> };
/** The same functions, and any texts in place of ours. */
type Loose<T> = T extends string
  ? string
  : T extends (...args: infer A) => infer R
    ? (...args: A) => R
    : T extends readonly string[]
      ? readonly string[]
      : { readonly [K in keyof T]: Loose<T[K]> };
