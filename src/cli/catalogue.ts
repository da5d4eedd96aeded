/** What `list` and `show` tell: from the variants' own tables and the presets' own files. */
import { CARDS } from '../cards/index.js';
import { type BoxStyle, find, panelNames } from '../contracts.js';
import { nearest } from '../job/nearest.js';
import { listPresets, type PresetKind } from '../job/presets.js';
import { listed } from '../job/reading.js';
import { MOTIFS, PATTERNS } from '../motifs/index.js';
import { fillParams, type ParamSpec, type ParamTable } from '../params.js';
import { FEATURES } from '../styles/features/index.js';
import { STYLES } from '../styles/index.js';
import { formatLength } from '../units/length.js';
import { type Environment, InputError } from './environment.js';
import { KINDS, type Kind, singular } from './kinds.js';
import { presetStore, readFaces, readPresets } from './preset-files.js';

export interface Entry {
  readonly id: string;
  readonly summary: string;
  readonly tags?: readonly string[];
}
export interface Detail extends Entry {
  readonly kind: string;
  readonly params?: ParamTable;
  /** Of a style: the names that features and decorations go by, and a box to try. */
  readonly panels?: readonly string[];
  readonly example?: string;
  /** The text of a preset's own file. */
  readonly text?: string;
}

interface Variant extends Entry {
  readonly params: ParamTable;
}
const VARIANTS: Partial<Record<Kind, readonly Variant[]>> = {
  styles: STYLES,
  features: FEATURES,
  motifs: MOTIFS,
  patterns: PATTERNS,
  cards: CARDS,
};
const PRESETS: Partial<Record<Kind, PresetKind>> = {
  palettes: 'palette',
  stocks: 'stock',
  cutters: 'cutter',
  conventions: 'convention',
  marks: 'mark',
  treats: 'treat',
  boxes: 'box',
  jobs: 'job',
};

/** First comment line of a job preset, which says what it is. */
function jobSummary(text: string): string {
  const title = /^title:\s*(.+?)\s*$/m.exec(text)?.[1];
  return title ? title.replace(/^["']|["']$/g, '') : 'a job';
}

export function listing(kind: Kind, environment: Environment): Entry[] {
  const variants = VARIANTS[kind];
  if (variants) {
    return variants.map(({ id, summary, tags }) => ({ id, summary, ...(tags ? { tags } : {}) }));
  }
  if (kind === 'fonts') return readFaces(environment).map(({ id, summary }) => ({ id, summary }));
  const presets = readPresets(environment);
  const preset = PRESETS[kind]!;
  // A box is a job of one.
  if (preset === 'job' || preset === 'box') {
    return presets.ids(preset).map(id => ({
      id,
      summary: jobSummary(presetStore(environment).text(preset, id) ?? ''),
    }));
  }
  return listPresets(presets, preset).map(({ id, summary }) => ({ id, summary }));
}

export function details(kindText: string, name: string, environment: Environment): Detail {
  const kind = KINDS.find(k => k === kindText || singular(k) === kindText);
  if (!kind) {
    const kinds = KINDS.map(singular);
    throw new InputError(`There is no kind "${kindText}". The kinds are ${kinds.join(', ')}.`);
  }
  const one = singular(kind);
  const entries = listing(kind, environment);
  const entry = entries.find(e => e.id === name);
  if (!entry) {
    const near = nearest(
      name,
      entries.map(e => e.id),
    );
    throw new InputError(
      `There is no ${one} "${name}".${near ? ` Did you mean ${near}?` : ''} See: foldwright list ${kind}`,
    );
  }
  const variant = VARIANTS[kind]?.find(v => v.id === name);
  const style = kind === 'styles' ? find(STYLES, name) : undefined;
  if (variant) {
    return { kind: one, ...entry, ...(style && styleFacts(style)), params: variant.params };
  }
  const preset = PRESETS[kind];
  if (!preset) return { kind: one, ...entry };
  return { kind: one, ...entry, text: presetStore(environment).text(preset, name) ?? '' };
}

/** Paper of an example, mm: common card. */
const EXAMPLE_MM = 0.3;

function styleFacts(style: BoxStyle): Pick<Detail, 'panels' | 'example'> {
  const { length, width, height } = style.example;
  const spec = { inside: style.example, thickness: EXAMPLE_MM };
  const panels = panelNames(style.build(spec, fillParams(style.params, {})));
  return { panels, example: `foldwright box ${style.id} --inside ${length}x${width}x${height}mm` };
}

/** A parameter's default and bounds, as a person writes them. */
export function boundsText(spec: ParamSpec): { default: string; allowed: string } {
  const mm = (n: number) => `${formatLength(n, 'mm')} (${formatLength(n, 'in')})`;
  switch (spec.kind) {
    case 'length':
      return {
        default: spec.default === 'auto' ? 'auto' : mm(spec.default),
        allowed: `${mm(spec.least)} to ${mm(spec.most)}`,
      };
    case 'angleDeg':
      return { default: `${spec.default}°`, allowed: `${spec.least}° to ${spec.most}°` };
    case 'number':
    case 'count':
      return { default: `${spec.default}`, allowed: `${spec.least} to ${spec.most}` };
    case 'choice':
      return { default: spec.default, allowed: spec.choices.join(', ') };
    case 'flag':
      return { default: spec.default ? 'yes' : 'no', allowed: 'yes, no' };
    case 'text':
      return {
        default: spec.default === '' ? 'none' : spec.default,
        allowed: `up to ${spec.longest} characters`,
      };
  }
}

/** More names than this that differ in their number are a row of teeth: told by the first and the last. */
const MOST_NUMBERED = 12;

function shortened(names: readonly string[]): string[] {
  const stem = (name: string) => name.replace(/\d+$/, '');
  return names.flatMap((name, i) => {
    const alike = names.filter(n => stem(n) === stem(name));
    if (stem(name) === name || alike.length <= MOST_NUMBERED) return [name];
    const numbers = alike.map(n => Number(n.slice(stem(name).length)));
    const [from, to] = [Math.min(...numbers), Math.max(...numbers)];
    return names.indexOf(alike[0]!) === i ? [`${stem(name)}${from} to ${to}`] : [];
  });
}

export function detailText(detail: Detail): string {
  if (detail.text !== undefined) return detail.text.trimEnd();
  const lines = [`${detail.id}: ${detail.summary}`];
  if (detail.tags && detail.tags.length > 0) {
    const note = detail.tags.some(t => t.endsWith('?')) ? '  (?: from memory)' : '';
    lines.push(`trade: ${detail.tags.join(', ')}${note}`);
  }
  if (detail.panels) lines.push(`panels: ${listed(shortened(detail.panels))}`);
  if (detail.example) lines.push(`to try: ${detail.example}`);
  for (const [name, spec] of Object.entries(detail.params ?? {})) {
    const { default: preset, allowed } = boundsText(spec);
    lines.push('', `  ${name}`, `      ${spec.help}`, `      default ${preset}; ${allowed}`);
  }
  return lines.join('\n');
}
