/**
 * Everything that an SVG draws, shape by shape. Parsing is strict (a file with a fault is refused, never
 * guessed at) and bounded (size, tags, depth, copies); it stays synchronous, so the two libraries are
 * loaded by `require` when a file is first read.
 */
import { createRequire } from 'node:module';
import type * as Xmldom from '@xmldom/xmldom';
import type { Element, Node } from '@xmldom/xmldom';
import type svgpath from 'svgpath';
import { compose, IDENTITY, transformAny, translation } from '../geom/index.js';
import type { Affine, Path } from '../model.js';
import { checkSize, ReadError } from './read-error.js';
import { MOST_CHARACTERS } from './reading.js';
import { checkSafe, checkSafeElement } from './svg-safety.js';
import { SHAPES, type Shape, shapePaths } from './svg-shapes.js';
import {
  type Frame,
  innerViewport,
  lengthUnits,
  type Page,
  pageOf,
  transformOf,
  type Viewport,
} from './svg-space.js';
import { type Rules, readRules } from './svg-styles.js';

const require = createRequire(import.meta.url);

/** An element a segment, and their groups. */
const MOST_TAGS = 300_000;
/** Groups nested deeper than this are not a drawing. */
const MOST_DEPTH = 100;
const GROUPS: readonly string[] = ['g', 'a', 'switch'];
/** Elements that draw nothing by themselves. */
const SILENT: readonly string[] = [
  'defs',
  'desc',
  'metadata',
  'title',
  'style',
  'script',
  'symbol',
  'clipPath',
  'mask',
  'marker',
  'pattern',
  'filter',
  'linearGradient',
  'radialGradient',
];
const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';
const XLINK_NAMESPACE = 'http://www.w3.org/1999/xlink';

export interface WalkOptions {
  /** Refuses what could reach outside the file or run, and what would be left out. */
  readonly strict?: boolean;
  readonly mostSegments: number;
}

/** One path of a shape, on the sheet. */
export interface Drawn {
  readonly path: Path;
  readonly stroke: string | undefined;
  readonly fill: string | undefined;
  /** Ids of the shape and of the groups around it, the innermost first. */
  readonly names: readonly string[];
  /** The element, for messages. */
  readonly where: string;
}

export interface Visitor {
  draw(drawn: Drawn): void;
  note(words: string): void;
}

/** What an element takes over from those around it. */
interface Inherited {
  readonly toSheet: Affine;
  readonly viewport: Frame;
  readonly names: readonly string[];
  readonly stroke: string | undefined;
  readonly fill: string | undefined;
  readonly depth: number;
}

/** Throws `ReadError` with what is wrong, where, and what to do. */
export function walkSvg(source: string, options: WalkOptions, visit: Visitor): Page {
  const { strict = false, mostSegments } = options;
  checkSize(source, MOST_CHARACTERS, 'simplify the drawing, or divide it among several files');
  checkTags(source);
  if (strict) checkSafe(source);
  if (/<!ENTITY/i.test(source)) {
    throw new ReadError('entities of its own', '<!DOCTYPE>', 'save the file as plain SVG');
  }
  const parsePath = require('svgpath') as typeof svgpath;
  const root = parse(source);
  const index = indexOf(root, strict);
  const page = pageOf(name => root.getAttribute(name));
  for (const note of page.notes) visit.note(note);

  const outermost: Inherited = {
    toSheet: page.toSheet,
    viewport: page.frame,
    names: [],
    stroke: undefined,
    fill: undefined,
    depth: 0,
  };
  // A stack instead of recursion: depth is the file's to choose. So is how often a copy is copied.
  const waiting: [Element, Inherited][] = [[root, outermost]];
  let visits = 0;
  const enter = (element: Element, inside: Inherited) => {
    if (inside.depth > MOST_DEPTH) {
      throw new ReadError(
        `groups more than ${MOST_DEPTH} deep`,
        placeOf(element),
        'ungroup them; a <use> cannot be inside what it uses',
      );
    }
    // The stack gives back the last first.
    for (const child of childrenOf(element).reverse()) waiting.push([child, inside]);
  };
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [element, around] = next;
    const name = element.localName ?? element.tagName;
    if (element.namespaceURI !== SVG_NAMESPACE || SILENT.includes(name)) continue;
    visits += 1;
    if (visits > MOST_TAGS) {
      throw new ReadError(
        `more than ${MOST_TAGS} elements with its copies`,
        placeOf(element),
        'use each <use> less often',
      );
    }
    const inside = inherit(element, around, index.rules);
    if (inside === undefined) {
      visit.note('a hidden element was left out');
    } else if (element === root || GROUPS.includes(name)) {
      enter(element, inside);
    } else if (name === 'svg') {
      const framed = framedBy(element, element, inside);
      if (framed) enter(element, moved(framed, inside, element));
    } else if (name === 'use') {
      useOf(element, inside, { ...index, strict }, waiting, enter, visit);
    } else if (SHAPES.includes(name as Shape)) {
      const where = placeOf(element);
      const attribute = (n: string) => element.getAttribute(n);
      const paths = shapePaths(
        name as Shape,
        attribute,
        inside.viewport,
        where,
        parsePath,
        mostSegments,
      );
      if (inside.stroke === 'none' && inside.fill === 'none') {
        if (paths.length > 0) visit.note('a shape without stroke or fill was left out');
        continue;
      }
      const { stroke, fill, names } = inside;
      for (const path of paths) {
        visit.draw({ path: transformAny(path, inside.toSheet), stroke, fill, names, where });
      }
    } else if (strict) {
      throw new ReadError(`<${name}> cannot be cut`, placeOf(element), 'turn it into paths first');
    } else {
      visit.note(`<${name}> was left out: turn it into paths before saving`);
    }
  }
  return page;
}

/** What a `<use>` shows: a shape, a group, or a symbol or nested drawing in a viewport of its own. */
function useOf(
  element: Element,
  inside: Inherited,
  { byId, strict }: Index & { readonly strict: boolean },
  waiting: [Element, Inherited][],
  enter: (element: Element, inside: Inherited) => void,
  visit: Visitor,
): void {
  const target = byId.get(linkOf(element)?.slice(1) ?? '');
  if (!target) {
    if (strict)
      throw new ReadError('what it uses is not in the file', placeOf(element), 'delete it');
    visit.note('a <use> of what is not in the file was left out');
    return;
  }
  const deeper = { ...inside, depth: inside.depth + 1 };
  const name = target.localName ?? target.tagName;
  if (name === 'symbol' || name === 'svg') {
    const framed = framedBy(target, element, deeper);
    if (framed) enter(target, moved(framed, deeper, element));
    return;
  }
  const placed = moved({ map: IDENTITY, ...inside.viewport }, deeper, element);
  if (deeper.depth > MOST_DEPTH) enter(target, deeper);
  else waiting.push([target, placed]);
}

const framedBy = (inner: Element, size: Element, { viewport }: Inherited) =>
  innerViewport(
    n => inner.getAttribute(n),
    n => size.getAttribute(n),
    viewport,
  );

/** The properties inside a viewport that stands at an element's x and y. */
function moved(frame: Viewport, inside: Inherited, at: Element): Inherited {
  const { width, height } = inside.viewport;
  const x = lengthUnits(at.getAttribute('x'), width, 'x') ?? 0;
  const y = lengthUnits(at.getAttribute('y'), height, 'y') ?? 0;
  const map = compose(inside.toSheet, compose(translation(x, y), frame.map));
  return { ...inside, toSheet: map, viewport: { width: frame.width, height: frame.height } };
}

/** Two million elements fit in the size that is read, but take xmldom 11 s and 2 GB (measured). */
function checkTags(source: string): void {
  let count = 0;
  for (let at = source.indexOf('<'); at >= 0; at = source.indexOf('<', at + 1)) count++;
  if (count > MOST_TAGS) {
    throw new ReadError(
      `${count} tags, at most ${MOST_TAGS} are read`,
      '',
      'simplify the drawing, or divide it among several files',
    );
  }
}

function parse(source: string): Element {
  const { DOMParser, onWarningStopParsing, ParseError } =
    require('@xmldom/xmldom') as typeof Xmldom;
  let root: Element | null;
  try {
    root = new DOMParser({ onError: onWarningStopParsing }).parseFromString(
      source,
      'image/svg+xml',
    ).documentElement;
  } catch (error) {
    if (!(error instanceof ParseError)) throw error;
    const at = error.locator as { lineNumber?: number; columnNumber?: number } | undefined;
    const where = at?.lineNumber ? `line ${at.lineNumber}, column ${at.columnNumber}` : '';
    // xmldom wraps its own words: Reporting fatalError "…" caused onWarningStopParsing.
    const words = /^Reporting \w+ "([\s\S]*)" caused/.exec(error.message)?.[1] ?? error.message;
    throw new ReadError(
      `not well-formed XML (${words.slice(0, 120)})`,
      where,
      'save the file again as plain SVG',
    );
  }
  if (root?.localName !== 'svg' || root.namespaceURI !== SVG_NAMESPACE) {
    const name = root ? `<${root.tagName}>` : 'nothing';
    throw new ReadError(`not an SVG: it begins with ${name}`, '', 'is this the right file?');
  }
  return root;
}

interface Index {
  readonly byId: ReadonlyMap<string, Element>;
  readonly rules: Rules;
}

/** What an attribute names when it links, with or without XLink. */
const linkOf = (element: Element): string | undefined =>
  element.getAttribute('href') ?? element.getAttributeNS(XLINK_NAMESPACE, 'href') ?? undefined;

/** Every element by its id, and the style sheets. */
function indexOf(root: Element, strict: boolean): Index {
  const byId = new Map<string, Element>();
  const sheets: string[] = [];
  const waiting = [root];
  for (let element = waiting.pop(); element; element = waiting.pop()) {
    const name = element.localName ?? element.tagName;
    const id = element.getAttribute('id');
    if (id !== null && !byId.has(id)) byId.set(id, element);
    if (name === 'style') sheets.push(element.textContent ?? '');
    if (strict) checkSafeElement(element, placeOf(element));
    // One by one: a call takes no 200,000 arguments.
    for (const child of childrenOf(element)) waiting.push(child);
  }
  return { byId, rules: readRules(sheets) };
}

const ELEMENT_NODE = 1;
const isElement = (node: Node): node is Element => node.nodeType === ELEMENT_NODE;

function childrenOf(element: Element): Element[] {
  const children: Element[] = [];
  for (let node = element.firstChild; node; node = node.nextSibling) {
    if (isElement(node)) children.push(node);
  }
  return children;
}

/** The element by its name, its id and its line. */
function placeOf(element: Element): string {
  const id = element.getAttribute('id');
  const line = (element as { lineNumber?: number }).lineNumber;
  return `<${element.tagName}>${id ? ` ${id.slice(0, 40)}` : ''}${line ? ` in line ${line}` : ''}`;
}

/** The properties for what is inside; `undefined` when the element is hidden. */
function inherit(element: Element, around: Inherited, rules: Rules): Inherited | undefined {
  const property = rules(name => element.getAttribute(name), element.localName ?? '');
  if (property('display') === 'none' || property('visibility') === 'hidden') return undefined;
  const step = element.getAttribute('transform');
  const id = element.getAttribute('id');
  return {
    ...around,
    toSheet:
      step === null ? around.toSheet : compose(around.toSheet, transformOf(step, placeOf(element))),
    names: id === null ? around.names : [id, ...around.names],
    stroke: property('stroke') ?? around.stroke,
    fill: property('fill') ?? around.fill,
    depth: around.depth + 1,
  };
}
