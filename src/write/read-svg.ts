/**
 * Reads SVG to a drawing: our own files exactly, others as far as they hold plain shapes. Parsing is
 * strict (a file with a fault is refused, never guessed at) and bounded (size, depth, segments).
 */
import type { Element, Node } from '@xmldom/xmldom';
import { arcsToCubics, compose, transform } from '../geom/index.js';
import type { Affine, Operation, Path } from '../model.js';
import { operationByColour, operationByName } from './operation-of.js';
import { checkSize, ReadError } from './read-error.js';
import { Gathering, MOST_CHARACTERS, type Reading, type ReadOptions } from './reading.js';
import { SHAPES, type Shape, shapePaths } from './svg-shapes.js';
import { pageOf, transformOf } from './svg-space.js';

/** An element a segment, and their groups. */
const MOST_TAGS = 300_000;
/** Groups nested deeper than this are not a drawing. */
const MOST_DEPTH = 100;
const GROUPS: readonly string[] = ['svg', 'g', 'a', 'switch'];
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

/** What an element takes over from those around it. */
interface Inherited {
  readonly toSheet: Affine;
  readonly operation: Operation | undefined;
  readonly stroke: string | undefined;
  readonly fill: string | undefined;
  readonly depth: number;
}

/** Throws `ReadError` with what is wrong, where, and what to do. */
export async function readSvg(source: string, options: ReadOptions = {}): Promise<Reading> {
  checkSize(source, MOST_CHARACTERS, 'simplify the drawing, or divide it among several files');
  checkTags(source);
  if (/<!ENTITY/i.test(source)) {
    throw new ReadError('entities of its own', '<!DOCTYPE>', 'save the file as plain SVG');
  }
  const { default: svgpath } = await import('svgpath');
  const root = await parse(source);
  const page = pageOf(name => root.getAttribute(name));
  const found = new Gathering();
  for (const note of page.notes) found.note(note);

  const outermost: Inherited = {
    toSheet: page.toSheet,
    operation: undefined,
    stroke: undefined,
    fill: undefined,
    depth: 0,
  };
  // A stack instead of recursion: depth is the file's to choose.
  const waiting: [Element, Inherited][] = [[root, outermost]];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [element, around] = next;
    const name = element.localName ?? element.tagName;
    if (element.namespaceURI !== SVG_NAMESPACE || SILENT.includes(name)) continue;
    if (name === 'svg' && element !== root) {
      found.note('a nested <svg> was left out: save the drawing without it');
      continue;
    }
    const inside = inherit(element, around);
    if (inside === undefined) {
      found.note('a hidden element was left out');
    } else if (GROUPS.includes(name)) {
      if (inside.depth > MOST_DEPTH) {
        throw new ReadError(
          `groups more than ${MOST_DEPTH} deep`,
          placeOf(element),
          'ungroup them',
        );
      }
      // The stack gives back the last first.
      for (const child of childrenOf(element).reverse()) waiting.push([child, inside]);
    } else if (SHAPES.includes(name as Shape)) {
      const where = placeOf(element);
      const paths = shapePaths(name as Shape, n => element.getAttribute(n), where, svgpath);
      if (inside.stroke === 'none' && inside.fill === 'none') {
        if (paths.length > 0) found.note('a shape without stroke or fill was left out');
        continue;
      }
      const operation = operationOf(inside, options, found);
      for (const path of paths) found.add(operation, move(path, inside.toSheet), where);
    } else {
      found.note(`<${name}> was left out: turn it into paths before saving`);
    }
  }
  return found.result(options.name ?? '', page.width, page.height);
}

function operationOf(
  { operation, stroke }: Inherited,
  { convention }: ReadOptions,
  found: Gathering,
): Operation {
  if (operation) return operation;
  const byColour = operationByColour(stroke, convention);
  if (byColour) return byColour;
  const shown = stroke === undefined || stroke === 'none' ? 'without a stroke' : `of ${stroke}`;
  found.note(`a path ${shown}, in no group named after an operation, was taken as cut`);
  return 'cut';
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

async function parse(source: string): Promise<Element> {
  const { DOMParser, onWarningStopParsing, ParseError } = await import('@xmldom/xmldom');
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
function inherit(element: Element, around: Inherited): Inherited | undefined {
  const style = styleOf(element.getAttribute('style'));
  const property = (name: string) => style.get(name) ?? element.getAttribute(name) ?? undefined;
  if (property('display') === 'none' || property('visibility') === 'hidden') return undefined;
  const step = element.getAttribute('transform');
  return {
    toSheet:
      step === null ? around.toSheet : compose(around.toSheet, transformOf(step, placeOf(element))),
    operation: operationByName(element.getAttribute('id')) ?? around.operation,
    stroke: property('stroke') ?? around.stroke,
    fill: property('fill') ?? around.fill,
    depth: around.depth + 1,
  };
}

function styleOf(text: string | null): Map<string, string> {
  const pairs = (text ?? '').split(';').map(p => p.split(':').map(s => s.trim()));
  return new Map(pairs.flatMap(([k, v]) => (k && v ? [[k, v] as [string, string]] : [])));
}

/** Arcs stay arcs under a similarity; under any other map they become cubics first. */
function move(path: Path, m: Affine): Path {
  const [a, b, c, d] = m;
  const similar =
    Math.abs(a * a + b * b - (c * c + d * d)) <= 1e-9 * (a * a + b * b + c * c + d * d) &&
    Math.abs(a * c + b * d) <= 1e-9 * (a * a + b * b + c * c + d * d);
  return transform(similar ? path : arcsToCubics(path), m);
}
