/**
 * Habits of the repository that no linter knows, as functions from a file's path and text to faults
 * in words. Forbidden words are put together here, so that this file passes its own checks.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import ts from 'typescript';

export interface TextFile {
  /** From the repository's root, with `/`. */
  readonly path: string;
  readonly text: string;
}

const LONGEST_LINE = 110;
const MOST_LINES = 400;

/** What the repository consists of; `out` holds results, but its gallery is kept. */
const TOPS = ['src', 'test', 'presets', '.ci', 'out/gallery'];
const TEXT =
  /(?:\.(?:ts|cjs|mjs|js|json|md|yaml|yml|sh|svg|dxf|txt|csv|css|html)|\/run|LICENSE|\.gitignore)$/;

/** Every text file of the repository. Works in a clone and in an unpacked archive alike. */
export function repositoryFiles(root: string): TextFile[] {
  const top = readdirSync(root, { withFileTypes: true, encoding: 'utf8' })
    .filter(e => e.isFile())
    .map(e => e.name);
  const below = TOPS.filter(t => existsSync(join(root, t))).flatMap(t =>
    readdirSync(join(root, t), { recursive: true, withFileTypes: true, encoding: 'utf8' })
      .filter(e => e.isFile())
      .map(e =>
        join(e.parentPath, e.name).slice(root.length).replaceAll('\\', '/').replace(/^\//, ''),
      ),
  );
  return [...top, ...below]
    .filter(path => TEXT.test(`/${path}`) && !/-changed\./.test(path))
    .sort()
    .map(path => ({ path, text: readFileSync(join(root, path), 'utf8') }));
}

const isCode = (path: string) => /\.(?:ts|cjs|mjs|js|sh)$|^\.ci\/run$/.test(path);
/** All else is data, and comes as it comes. */
const isProse = (path: string) =>
  /\.(?:md|yaml|yml)$/.test(path) && !path.startsWith('presets/fonts/');
const isLock = (path: string) => path === 'package-lock.json';
const isForeign = (path: string) =>
  /^presets\/(?:fonts|data)\//.test(path) || /LICEN[CS]E/.test(path);

/** Literals count for nothing in a line's length: a message in one piece can be searched for. */
const LITERAL = /(['"`])(?:\\.|(?!\1).)*\1|\/(?![/*]).+\/[a-z]*(?=[,;).])/g;

/** Rows of tables, and links. */
const MAY_BE_LONG = /^\s*\||https?:\/\//;

export function longLines({ path, text }: TextFile): string[] {
  if (!isCode(path) && !isProse(path)) return [];
  return text.split('\n').flatMap((line, i) => {
    const length = [...line].length;
    const counted = isProse(path) ? line : line.replace(LITERAL, '');
    const fine = [...counted].length <= LONGEST_LINE || (isProse(path) && MAY_BE_LONG.test(line));
    return fine ? [] : [`${path}:${i + 1}: ${length} characters`];
  });
}

/** The data stand on one page, however many they are, so that nobody looks for them elsewhere. */
const MOST_MODEL_LINES = 800;

export function longFiles({ path, text }: TextFile): string[] {
  const lines = text.split('\n').length - 1;
  const most = path === 'src/model.ts' ? MOST_MODEL_LINES : MOST_LINES;
  return isCode(path) && lines > most ? [`${path}: ${lines} lines`] : [];
}

const anyOf = (...words: readonly string[]) => words.join('|');
/** Words that stand nowhere, each with its reason. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [
    new RegExp(`\\b(?:${anyOf('TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X', 'HA' + 'CK')})\\b`),
    'unfinished',
  ],
  [new RegExp(`(?<![\\w.$})-])/(?:${anyOf('work', 'root', 'tmp')})\\b`), 'a path of one machine'],
  [/\bregistry\.[a-z]+\.(?:org|com|io|dev)\b/, 'a registry host'],
  [
    new RegExp(`\\b(?:${anyOf('vid' + 'eo', 'trans' + 'cript', 'record' + 'ing')})s?\\b`, 'i'),
    'not a word of this project',
  ],
];
const OWN_WORDS = ['test/repo/tidy.ts', 'test/repo/tidy.test.ts'];

export function forbiddenWords({ path, text }: TextFile): string[] {
  if (isForeign(path) || OWN_WORDS.includes(path)) return [];
  return text.split('\n').flatMap((line, i) =>
    WORDS.flatMap(([word, reason]) => {
      const found = word.exec(line);
      return found ? [`${path}:${i + 1}: ${found[0]}: ${reason}`] : [];
    }),
  );
}

/** A lock file that names where packages came from ties the repository to that place. */
export function lockedHosts({ path, text }: TextFile): string[] {
  if (!isLock(path)) return [];
  const packages = Object.entries(
    JSON.parse(text).packages as Record<string, { resolved?: string }>,
  );
  return packages.flatMap(([name, p]) =>
    p.resolved ? [`${path}: ${name} from ${p.resolved}`] : [],
  );
}

/** Folders whose name says nothing about what is in them. */
export function namelessFolders({ path }: TextFile): string[] {
  const names = ['utils', 'util', 'helpers', 'helper', 'common', 'misc', 'lib'];
  return path.split('/').some(part => names.includes(part))
    ? [`${path}: name the folder by meaning`]
    : [];
}

/** Names that make a result depend on when, where or by whom it was made. */
const UNREPEATABLE = new Set([
  'Math.random',
  'Date.now',
  'performance.now',
  'crypto.randomUUID',
  'process',
  'randomUUID',
  'randomBytes',
  'Intl',
  'setTimeout',
  'setInterval',
  'fetch',
]);
/** They follow the language of the machine. */
const METHODS = /^(?:localeCompare|toLocale\w+)$/;

const MAY_KNOW_THE_TIME = /^src\/(?:cli\/|page\/browser\/|main\.ts$)/;

/** In `src`, but not in cli, main and what runs in a browser. Read from the syntax tree: words in
 *  comments, in strings and names of fields do not count; `new Date(0)` is repeatable and may stand. */
export function unrepeatable({ path, text }: TextFile): string[] {
  if (!/^src\/.*\.ts$/.test(path) || MAY_KNOW_THE_TIME.test(path)) return [];
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const faults: string[] = [];
  const fault = (node: ts.Node, what: string) => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    faults.push(`${path}:${line + 1}: ${what}`);
  };
  const visit = (node: ts.Node): void => {
    const name = unrepeatableName(node);
    if (name) fault(node, name);
    if (ts.isCallExpression(node) && isHiddenRequire(node)) fault(node, 'a module of Node, hidden');
    ts.forEachChild(node, visit);
  };
  visit(source);
  return faults;
}

/** What is unrepeatable about this node alone. */
function unrepeatableName(node: ts.Node): string | undefined {
  if (ts.isNewExpression(node) || ts.isCallExpression(node)) {
    return node.expression.getText() === 'Date' && !node.arguments?.length ? 'Date()' : undefined;
  }
  if (ts.isPropertyAccessExpression(node)) {
    const owner = node.expression.getText().replace(/^globalThis\./, '');
    const method = node.name.text;
    const whole = `${owner}.${method}`;
    return UNREPEATABLE.has(whole) ? whole : METHODS.test(method) ? method : undefined;
  }
  if (!ts.isIdentifier(node)) return undefined;
  const { parent } = node;
  const isField =
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    ((ts.isPropertyAssignment(parent) || ts.isPropertySignature(parent)) && parent.name === node);
  return !isField && UNREPEATABLE.has(node.text) ? node.text : undefined;
}

/** `createRequire(…)('fs')` would pass the import order unseen. */
function isHiddenRequire(call: ts.CallExpression): boolean {
  const inner = call.expression;
  if (!ts.isCallExpression(inner) || inner.expression.getText() !== 'createRequire') return false;
  const [what] = call.arguments;
  if (!what || !ts.isStringLiteral(what)) return true;
  return what.text.startsWith('node:') || builtinModules.includes(what.text);
}

export const HABITS = {
  longLines,
  longFiles,
  forbiddenWords,
  lockedHosts,
  namelessFolders,
  unrepeatable,
} as const;
