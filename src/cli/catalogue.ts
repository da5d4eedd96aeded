/** What `list` and `show` tell: from the variants' own tables and the presets' own files. */
import { CARDS } from '../cards/index.js';
import { nearest } from '../job/nearest.js';
import { listPresets, type PresetKind } from '../job/presets.js';
import { MOTIFS, PATTERNS } from '../motifs/index.js';
import type { ParamSpec, ParamTable } from '../params.js';
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
  if (variant) return { kind: one, ...entry, params: variant.params };
  const preset = PRESETS[kind];
  if (!preset) return { kind: one, ...entry };
  return { kind: one, ...entry, text: presetStore(environment).text(preset, name) ?? '' };
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

export function detailText(detail: Detail): string {
  if (detail.text !== undefined) return detail.text.trimEnd();
  const lines = [`${detail.id}: ${detail.summary}`];
  if (detail.tags && detail.tags.length > 0) lines.push(`trade: ${detail.tags.join(', ')}`);
  for (const [name, spec] of Object.entries(detail.params ?? {})) {
    const { default: preset, allowed } = boundsText(spec);
    lines.push('', `  ${name}`, `      ${spec.help}`, `      default ${preset}; ${allowed}`);
  }
  return lines.join('\n');
}
