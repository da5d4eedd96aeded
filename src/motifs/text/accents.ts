/**
 * Letters with accents that a pen face lacks, composed of the letter and a mark of single lines. Which
 * marks a letter has is Unicode's canonical decomposition; their drawing is our own.
 */
import { bounds, line, openPath, polar, transform, translation } from '../../geom/index.js';
import type { Affine, Path, Point } from '../../model.js';
import type { PenFace, PenGlyph } from './pen-face.js';

type Place = 'above' | 'below' | 'through';
interface Mark {
  readonly place: Place;
  /** In units of the small letters' height; middle and near edge on the origin. */
  readonly lines: readonly (readonly Point[])[];
}

const arc = (from: number, to: number, radius: number, middle: Point): Point[] =>
  Array.from({ length: 9 }, (_, i) => polar(radius, from + ((to - from) * i) / 8, middle));

const acute = (x: number): Point[] => [
  [x - 0.08, 0],
  [x + 0.13, 0.28],
];
const dot = (x: number): Point[] => [
  [x, 0.06],
  [x, 0.16],
];
/** Marks by their combining character. */
const MARKS: ReadonlyMap<string, Mark> = new Map<string, Mark>([
  ['\u0300', { place: 'above', lines: [acute(0).map(([x, y]): Point => [-x, y])] }],
  ['\u0301', { place: 'above', lines: [acute(0)] }],
  [
    '\u0302',
    {
      place: 'above',
      lines: [
        [
          [-0.2, 0],
          [0, 0.24],
          [0.2, 0],
        ],
      ],
    },
  ],
  [
    '\u0303',
    {
      place: 'above',
      lines: [
        [...arc(Math.PI, 0, 0.11, [-0.11, 0.08]), ...arc(Math.PI, 2 * Math.PI, 0.11, [0.11, 0.08])],
      ],
    },
  ],
  [
    '\u0304',
    {
      place: 'above',
      lines: [
        [
          [-0.2, 0.1],
          [0.2, 0.1],
        ],
      ],
    },
  ],
  ['\u0306', { place: 'above', lines: [arc(Math.PI, 2 * Math.PI, 0.18, [0, 0.22])] }],
  ['\u0307', { place: 'above', lines: [dot(0)] }],
  ['\u0308', { place: 'above', lines: [dot(-0.16), dot(0.16)] }],
  ['\u030a', { place: 'above', lines: [arc(0, 2 * Math.PI, 0.13, [0, 0.15])] }],
  ['\u030b', { place: 'above', lines: [acute(-0.12), acute(0.14)] }],
  [
    '\u030c',
    {
      place: 'above',
      lines: [
        [
          [-0.2, 0.24],
          [0, 0],
          [0.2, 0.24],
        ],
      ],
    },
  ],
  [
    '\u0326',
    {
      place: 'below',
      lines: [
        [
          [0.03, -0.1],
          [-0.04, -0.28],
        ],
      ],
    },
  ],
  [
    '\u0327',
    {
      place: 'below',
      lines: [
        [[0, 0], [0, -0.1], ...arc(Math.PI / 2, -Math.PI / 2, 0.09, [0.02, -0.19]), [-0.1, -0.26]],
      ],
    },
  ],
  [
    '\u0328',
    {
      place: 'below',
      lines: [[...arc(Math.PI / 2, (3 * Math.PI) / 2, 0.13, [0.12, -0.13]), [0.2, -0.24]]],
    },
  ],
]);

/** Letters with a stroke through them have no decomposition. */
const STRUCK: Readonly<
  Record<string, readonly [letter: string, line: readonly Point[], at: number]>
> = {
  ł: [
    'l',
    [
      [-0.18, -0.1],
      [0.18, 0.14],
    ],
    0.55,
  ],
  Ł: [
    'L',
    [
      [-0.2, -0.12],
      [0.26, 0.2],
    ],
    0.5,
  ],
  đ: [
    'd',
    [
      [-0.08, 0],
      [0.3, 0],
    ],
    0.82,
  ],
  Đ: [
    'D',
    [
      [-0.2, 0],
      [0.24, 0],
    ],
    0.5,
  ],
  ħ: [
    'h',
    [
      [-0.16, 0],
      [0.26, 0],
    ],
    0.82,
  ],
};

/** Characters that others stand for on paper. */
const LIKE: Readonly<Record<string, string>> = {
  '’': "'",
  '‘': "'",
  '‚': ',',
  '„': '"',
  '“': '"',
  '”': '"',
  '‐': '-',
  '‑': '-',
  '–': '-',
  '—': '-',
  '\u00a0': ' ',
  '…': '...',
  æ: 'ae',
  Æ: 'AE',
  œ: 'oe',
  Œ: 'OE',
};

/** The glyphs for a character, or nothing where the face has not even its letter. */
export function penGlyphs(face: PenFace, character: string): readonly PenGlyph[] | undefined {
  const own = face.glyphs.get(character);
  if (own) return [own];
  const like = LIKE[character];
  if (like !== undefined) {
    const parts = [...like].map(c => penGlyphs(face, c));
    return parts.includes(undefined) ? undefined : parts.flatMap(g => g!);
  }
  const composed = struck(face, character) ?? withMarks(face, character);
  return composed && [composed];
}

function struck(face: PenFace, character: string): PenGlyph | undefined {
  const found = STRUCK[character];
  const letter = found && face.glyphs.get(found[0]);
  if (!letter) return undefined;
  const [, points, share] = found;
  const ink = bounds(...letter.lines);
  // Its stem is on the left, but a d's on the right.
  const stem = /[dh]/.test(found[0]) && found[0] === 'd' ? ink.maxX : ink.minX;
  const x = found[0] === 'l' ? (ink.minX + ink.maxX) / 2 : stem;
  const at = translation(x, ink.minY + share * (ink.maxY - ink.minY));
  return { ...letter, lines: [...letter.lines, drawn(points, face.xHeight, at)] };
}

function withMarks(face: PenFace, character: string): PenGlyph | undefined {
  const [base, ...marks] = character.normalize('NFD');
  const known = marks.map(m => MARKS.get(m));
  const letter = base === undefined ? undefined : face.glyphs.get(base);
  if (!letter || letter.lines.length === 0 || known.length === 0 || known.includes(undefined)) {
    return undefined;
  }
  const above = known.some(m => m!.place === 'above');
  let lines = above ? withoutDot(letter.lines, face.xHeight, base!) : letter.lines;
  for (const mark of known) lines = [...lines, ...placed(mark!, lines, face.xHeight)];
  return { ...letter, lines };
}

/** An i or j gives its dot up for the mark. */
const withoutDot = (lines: readonly Path[], xHeight: number, base: string): readonly Path[] =>
  /[ij]/.test(base) && lines.length > 1 ? lines.filter(l => bounds(l).minY < xHeight) : lines;

/** Air between a letter and its mark, in small letters' heights. */
const AIR = 0.16;

function placed({ place, lines }: Mark, letter: readonly Path[], xHeight: number): Path[] {
  const ink = bounds(...letter);
  const tall = ink.maxY - ink.minY;
  // The middle of what is near the mark: slanted letters lean away from their own middle.
  const near = letter
    .flatMap(l => [l.start, ...l.segments.map(s => s.to)])
    .filter(([, y]) => (place === 'above' ? y > ink.maxY - 0.4 * tall : y < ink.minY + 0.4 * tall))
    .map(([x]) => x);
  const x = (Math.min(...near) + Math.max(...near)) / 2;
  const y = place === 'above' ? ink.maxY + AIR * xHeight : Math.min(0, ink.minY);
  return lines.map(points => drawn(points, xHeight, translation(x, y)));
}

function drawn(points: readonly Point[], unit: number, at: Affine): Path {
  const [start, ...rest] = points.map(([x, y]): Point => [x * unit, y * unit]);
  return transform(openPath(start!, rest.map(line)), at);
}
