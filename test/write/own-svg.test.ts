/** Drawings of a person's own: what is read of them, and what is refused, in bounded time. */
import { describe, expect, it } from 'vitest';
import { bounds, pathLength } from '../../src/geom/index.js';
import { ReadError } from '../../src/write/read-error.js';
import { type OwnLine, readOwnSvg } from '../../src/write/read-own-svg.js';
import { CONVENTION } from '../support/drawings.js';

const doc = (inside: string, root = 'width="100mm" height="100mm" viewBox="0 0 100 100"') =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${root}>\n${inside}</svg>`;
const read = (inside: string, root?: string) => readOwnSvg(doc(inside, root), CONVENTION);
/** Its bounds as they stand in the file: y down. */
const box = (line: OwnLine, height = 100) => {
  const b = bounds(line.path);
  return [b.minX, height - b.maxY, b.maxX, height - b.minY];
};
const near = (given: readonly number[], wanted: readonly number[], digits = 4) =>
  given.forEach((v, i) => {
    expect(v).toBeCloseTo(wanted[i]!, digits);
  });

describe('what is read', () => {
  // W3C's arcs01.svg (SVG 1.1 and 2, 8.3.8 / 9.5.1); lengths and boxes computed with appendix B.2: check
  // values 3.2, A to F.
  const ARCS: readonly (readonly [string, number, readonly number[]])[] = [
    ['M150 200a150,150 0 1,0 150,-150', 706.858347, [150, 50, 450, 350]],
    ['M275 25a150,150 0 0,0 -150,150', 235.619449, [125, 25, 275, 175]],
    ['M650 325a25,25 -30 0,1 50,-25', 87.810184, [647.0492, 284.5492, 700, 325]],
    ['M750 275a25,50 -30 0,1 50,-25', 135.217783, [738.0743, 212.1788, 800, 275]],
    ['M850 225a25,75 -30 0,1 50,-25', 186.481818, [826.665, 138.6671, 900, 225]],
    ['M950 175a25,100 -30 0,1 50,-25', 239.370358, [914.1851, 64.8368, 1000, 175]],
  ];
  it.each(ARCS)('W3C arc %s', (d, length, wanted) => {
    const root = 'width="1200mm" height="400mm" viewBox="0 0 1200 400"';
    const [line] = read(`<path d="${d}" fill="none" stroke="red"/>`, root);
    expect(pathLength(line!.path) / length).toBeCloseTo(1, 4);
    near(box(line!, 400), wanted, 1);
  });

  it('basic shapes as SVG defines them, and cubics and quadratics of known length', () => {
    // Check values 3.2 and 3.4: closed forms.
    const lengthOf = (shape: string) => pathLength(read(shape)[0]!.path);
    expect(lengthOf('<path d="M0 0C0 100 100 100 100 0"/>')).toBeCloseTo(200, 6);
    expect(lengthOf('<path d="M0 0Q50 100 100 0"/>')).toBeCloseTo(147.894286, 5);
    expect(lengthOf('<circle cx="50" cy="50" r="10"/>')).toBeCloseTo(20 * Math.PI, 9);
    expect(lengthOf('<ellipse cx="50" cy="50" rx="10" ry="5"/>') / 48.442241103).toBeCloseTo(1, 3);
    expect(lengthOf('<rect x="1" y="1" width="30" height="20" rx="5"/>')).toBeCloseTo(
      2 * (20 + 10) + 10 * Math.PI,
      9,
    );
    expect(lengthOf('<polygon points="0,0 30,0 30,40"/>')).toBeCloseTo(120, 9);
    expect(lengthOf('<polyline points="0,0 30,0 30,40"/>')).toBeCloseTo(70, 9);
    expect(lengthOf('<line x1="0" y1="0" x2="3" y2="4"/>')).toBeCloseTo(5, 9);
  });

  it('groups and transforms, outermost first', () => {
    const [line] = read(
      '<g transform="translate(10 20) scale(2)"><rect transform="rotate(90)" width="4" height="3"/></g>',
    );
    near(box(line!), [4, 20, 10, 28]);
  });

  it('a nested drawing in its viewBox, fitted as preserveAspectRatio says', () => {
    const nested = (more: string) =>
      box(
        read(
          `<svg x="10" y="20" width="40" height="20" viewBox="0 0 10 10" ${more}><rect width="10" height="10"/></svg>`,
        )[0]!,
      );
    near(nested(''), [20, 20, 40, 40]);
    near(nested('preserveAspectRatio="xMinYMid"'), [10, 20, 30, 40]);
    near(nested('preserveAspectRatio="none"'), [10, 20, 50, 40]);
    near(nested('preserveAspectRatio="xMidYMid slice"'), [10, 10, 50, 50]);
    near(
      box(read('<svg x="50" width="50%"><rect width="10" height="10"/></svg>')[0]!),
      [50, 0, 60, 10],
    );
  });

  it('copies of shapes, groups and symbols', () => {
    const lines = read(
      '<defs><g id="pair"><circle r="1"/><circle cx="5" r="1"/></g></defs>' +
        '<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol>' +
        '<use href="#pair" x="20" y="10" stroke="red"/><use xlink:href="#pair" transform="scale(2)" x="1"/>' +
        '<use href="#s" x="50" y="50" width="20" height="20"/>',
    );
    near(box(lines[0]!), [19, 9, 21, 11]);
    expect(lines[0]!.colour).toBe('#ff0000');
    expect(lines[0]!.names).toEqual(['pair']);
    near(box(lines[1]!), [24, 9, 26, 11]);
    near(box(lines[2]!), [0, -2, 4, 2]);
    near(box(lines[4]!), [50, 50, 70, 70]);
  });

  it('colours from attributes, styles, classes and ids, the nearer before the farther', () => {
    const colours = read(
      '<style>/* c */ path{stroke:red} .a, .b {stroke: rgb(0, 0, 255) !important} #i{stroke:lime}</style>' +
        '<path d="M0 0h1"/><path class="x a" d="M0 0h1"/><path id="i" class="b" d="M0 0h1"/>' +
        '<path id="j" style="stroke:#0FF" class="b" d="M0 0h1"/><g fill="navy" stroke="none"><circle r="2"/></g>',
    ).map(l => l.colour);
    expect(colours).toEqual(['#ff0000', '#0000ff', '#00ff00', '#00ffff', '#000080']);
  });

  it('operations by the name of a group and by the colours of our own files', () => {
    const [a, b] = read(
      '<g id="score"><path d="M0 0h1"/></g><path stroke="#0072b2" d="M0 0h1"/>',
    ).map(l => l.operation);
    expect([a, b]).toEqual(['score', 'draw']);
  });
});

describe('what is refused, with its place, what is allowed and what to do', () => {
  const bomb = `<!DOCTYPE svg [${Array.from({ length: 9 }, (_, i) => `<!ENTITY a${i} "${`&a${i + 1};`.repeat(10)}">`).join('')}]>`;
  const million = `M0 0${'l1 1'.repeat(999_999)}`;
  const deep = `${'<g>'.repeat(200)}<circle r="1"/>${'</g>'.repeat(200)}`;
  const copies = Array.from(
    { length: 12 },
    (_, i) =>
      `<g id="n${i}">${(i === 0 ? '<circle r="1"/>' : `<use href="#n${i - 1}"/>`).repeat(8)}</g>`,
  ).join('');
  const CASES: readonly (readonly [string, string, RegExp])[] = [
    ['an entity bomb', `${bomb}${doc('<text>&a0;</text>')}`, /line 1: entities of its own/],
    ['a document type', `<?xml version="1.0"?>\n<!DOCTYPE svg>${doc('')}`, /line 2: a <!DOCTYPE>/],
    [
      'a style sheet by instruction',
      `<?xml version="1.0"?>\n\n<?xml-stylesheet href="x.css"?>${doc('')}`,
      /line 3: an instruction/,
    ],
    ['an imported style sheet', doc('<style>@import "x.css";</style>'), /line 2: a style sheet/],
    ['a script', doc('\n<script>1</script>'), /<script> in line 3: <script> is not allowed/],
    ['a script in an attribute', doc('<g onclick="x()"/>'), /in line 2: a script \(onclick\)/],
    ['a picture', doc('<image href="data:image/png;base64,AA"/>'), /leads out of the file.*trace/],
    ['a copy of another file', doc('<use xlink:href="other.svg#a"/>'), /xlink:href leads out/],
    ['a colour from elsewhere', doc('<path fill="url(http://x/y)" d="M0 0h1"/>'), /fill leads out/],
    ['a page inside', doc('<foreignObject/>'), /<foreignObject> is not allowed/],
    ['text', doc('<text>Pears</text>'), /<text> cannot be cut; turn it into paths/],
    ['a copy of nothing', doc('<use href="#gone"/>'), /what it uses is not in the file/],
    ['a copy of itself', doc('<g id="a"><use href="#a"/></g>'), /a <use> cannot be inside/],
    ['copies of copies of copies', doc(copies), /more than \d+ (elements|segments)/],
    [
      'a million points',
      doc(`<path d="${million}"/>`),
      /<path> in line 2: more than 20000 segments/,
    ],
    [
      'a million points of a polygon',
      doc(`<polygon points="${'1 1 '.repeat(999_999)}"/>`),
      /more than/,
    ],
    ['fifty megabytes', doc(' '.repeat(50e6)), /50\.0 MB, at most 8\.0 MB/],
    ['no numbers', doc('<path d="M0 0L NaN 5"/>'), /in line 2: its path data cannot be read/],
    ['an infinity', doc('<path d="M0 0L1e400 5"/>'), /a coordinate that is no number/],
    ['a number from far away', doc('<path d="M0 0L1e9 5"/>'), /far off any sheet/],
    ['an infinite shape', doc('<circle r="1e999"/>'), /is no length/],
    ['no numbers in points', doc('<polygon points="0,0 NaN,1"/>'), /not pairs of numbers/],
    ['no numbers in a transform', doc('<g transform="scale(NaN)"/>'), /is not one that SVG knows/],
    ['groups in groups in groups', doc(deep), /more than 100 deep/],
    ['two roots', `${doc('')}${doc('')}`, /not well-formed/],
    ['an open element', doc('<g>'), /not well-formed/],
    ['something else', '<html/>', /not an SVG/],
    ['nothing', '', /./],
  ];
  it.each(CASES)('%s', (_, source, told) => {
    let error: unknown;
    try {
      readOwnSvg(source, CONVENTION);
    } catch (e) {
      error = e;
    }
    expect(error).toBeInstanceOf(ReadError);
    expect((error as Error).message).toMatch(told);
    expect((error as ReadError).advice.length).toBeGreaterThan(8);
  });
});
