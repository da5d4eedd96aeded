/** Reads a job, checks all of it, makes its files, and says what was made. */
import { join, resolve } from 'node:path';
import { LAWS } from '../fold/index.js';
import type { Document, Fault, Source } from '../job/index.js';
import { formatFaults, inOrder, nearest } from '../job/index.js';
import type { Design, Item } from '../model.js';
import {
  cutterEntry,
  importEntry,
  type Manifest,
  type ManifestFacts,
  manifestText,
  parseManifest,
} from '../write/index.js';
import { contactFiles, inJobOrder, PICTURE } from './contact-files.js';
import { type Crew, oneThread } from './crew.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import type { MakingOptions } from './output-options.js';
import { startProgress } from './progress.js';
import { openSession, type Session } from './session.js';
import { openStore, type Store } from './store.js';
import { placeText, type RunResult, summaryText } from './summary.js';
import { onWorkers, workersFor } from './workers.js';

export interface MakeOptions extends MakingOptions {
  /** Only these items; the others' files are left as they are. */
  readonly only?: readonly string[];
  /** Say only where the contact sheet is. */
  readonly look?: true;
  /** One item of a folder that may hold others: leave those listed. */
  readonly single?: true;
}

export async function make(
  source: Source | Document,
  options: MakeOptions,
  environment: Environment,
): Promise<ExitCode> {
  const session = openSession(source, options, environment);
  const { design } = session;
  const items = chosen(design, options.only ?? []);
  const folder = resolve(environment.cwd, options.out, design.name);
  // Opened before the long work: a folder that cannot be written is told at once.
  const partial = items.length < design.items.length || options.single === true;
  const { force = false } = options;
  const store = options.check ? undefined : openStore(folder, { force, removeStale: !partial });
  const crew = crewFor(items.length, source, session, options, environment);
  try {
    // Proofs stop nothing: where files are made, they come with them.
    const known = await checkAll(crew, session, items, !store, environment);
    const result = store
      ? await makeAll({ crew, session, items, store, partial, environment })
      : { job: design.name, items: items.length, ...known };
    if (options.look && result.failures.length === 0) {
      environment.out(placeText(result, join(options.out, design.name)));
      return EXIT.good;
    }
    environment.out(
      options.json
        ? JSON.stringify(result, undefined, 2)
        : summaryText(result, design, join(options.out, design.name)),
    );
    return result.failures.length > 0 ? EXIT.checkFailed : EXIT.good;
  } finally {
    await crew.stop();
    store?.abandon();
  }
}

function crewFor(
  items: number,
  source: Source | Document,
  session: Session,
  options: MakeOptions,
  environment: Environment,
): Crew {
  const workers = workersFor(items, options.workers);
  return workers > 1 ? onWorkers(workers, source, options, environment) : oneThread(session);
}

function chosen(design: Design, only: readonly string[]): readonly Item[] {
  if (only.length === 0) return design.items;
  const names = design.items.map(i => i.name);
  const unknown = only.filter(name => !names.includes(name));
  if (unknown.length > 0) {
    const told = unknown.map(name => {
      const near = nearest(name, names);
      return `"${name}"${near ? ` (did you mean ${near}?)` : ''}`;
    });
    throw new InputError(
      `The job has no item ${told.join(', ')}. Its items are:\n  ${names.join('\n  ')}`,
    );
  }
  return design.items.filter(i => only.includes(i.name));
}

/** Checks every item; all faults of all items are told at once, before the first byte. */
async function checkAll(
  crew: Crew,
  { faultOf }: Session,
  items: readonly Item[],
  proofs: boolean,
  environment: Environment,
): Promise<Pick<RunResult, 'failures' | 'warnings'>> {
  const progress = startProgress('checking', items.length, environment);
  const failures: string[] = [];
  const warnings: string[] = [];
  const faults: Fault[] = [];
  const names = items.map(i => i.name);
  for await (const { name, ...known } of crew.check(names, proofs)) {
    for (const { decoration, feature, message, hint } of known.faults) {
      const part =
        decoration !== undefined ? { decoration } : feature !== undefined ? { feature } : 'size';
      faults.push(faultOf(name, part, message, hint === undefined ? {} : { hint }));
    }
    failures.push(...known.failures.map(f => `${name}: ${f}`));
    warnings.push(...known.warnings.map(w => `${name}: ${w}`));
    progress.step(name);
  }
  progress.stop();
  if (faults.length > 0) throw new InputError(formatFaults(inOrder(faults)));
  return { failures, warnings };
}

interface Run {
  readonly crew: Crew;
  readonly session: Session;
  readonly items: readonly Item[];
  readonly store: Store;
  readonly partial: boolean;
  readonly environment: Environment;
}

async function makeAll({
  crew,
  session,
  items,
  store,
  partial,
  environment,
}: Run): Promise<RunResult> {
  const { design } = session;
  const progress = startProgress('making', items.length, environment);
  const entries: ManifestFacts['items'][number][] = [];
  const pictures = new Map<string, Uint8Array>();
  const files: ManifestFacts['files'][number][] = [];
  const sheets: ManifestFacts['sheets'][number][] = [];
  const closures: ManifestFacts['closures'][number][] = [];
  const nets: ManifestFacts['nets'][number][] = [];
  const placed: ManifestFacts['placed'][number][] = [];
  const warnings: string[] = [];
  const failures: string[] = [];
  for await (const made of crew.make(items.map(i => i.name))) {
    for (const { entry, bytes } of made.files) {
      store.put(entry.path, bytes);
      files.push(entry);
      if (entry.path.endsWith(PICTURE)) pictures.set(entry.path, bytes);
    }
    entries.push(made.item);
    sheets.push(...made.sheets);
    closures.push(...made.closures);
    nets.push(...made.nets);
    placed.push(...made.placed);
    warnings.push(...made.warnings.map(w => `${made.name}: ${w}`));
    failures.push(...made.failures.map(f => `${made.name}: ${f}`));
    progress.step(made.name);
  }
  progress.stop();
  const old = partial ? previous(store, new Set(items.map(i => i.name))) : undefined;
  const facts: ManifestFacts = {
    version: environment.version,
    job: design.name,
    title: design.title,
    convention: design.convention.id,
    import: importEntry(design.importing),
    cutter: cutterEntry(design.cutter),
    items: inJobOrder([...(old?.items ?? []), ...entries], design),
    files: [...(old?.files ?? []), ...files],
    sheets: [...(old?.sheets ?? []), ...sheets],
    closures: [...(old?.closures ?? []), ...closures],
    laws: LAWS,
    nets: [...(old?.nets ?? []), ...nets],
    placed: [...(old?.placed ?? []), ...placed],
    warnings: [...(old?.warnings ?? []), ...warnings],
  };
  const contact = contactFiles(facts, session, pictures, store.folder);
  for (const { entry, bytes } of contact) {
    store.put(entry.path, bytes);
    files.push(entry);
  }
  const manifest = manifestText({
    ...facts,
    files: [...facts.files, ...contact.map(c => c.entry)],
  });
  const stored = store.finish(manifest);
  return { job: design.name, items: items.length, files, sheets, failures, warnings, stored };
}

/** What an earlier run's manifest says of the items that this one leaves alone. */
export function previous(
  store: Store,
  remade: ReadonlySet<string>,
):
  | Pick<Manifest, 'items' | 'files' | 'sheets' | 'closures' | 'nets' | 'placed' | 'warnings'>
  | undefined {
  if (!store.previous) return undefined;
  const manifest = parseManifest(JSON.stringify(store.previous));
  const other = (item: string) => !remade.has(item);
  return {
    items: manifest.items.filter(i => other(i.name)),
    files: manifest.files.filter(f => f.path.includes('/') && other(f.path.split('/')[0]!)),
    sheets: manifest.sheets.filter(s => other(s.item)),
    closures: manifest.closures.filter(c => other(c.item)),
    nets: manifest.nets.filter(n => other(n.item)),
    placed: manifest.placed.filter(p => other(p.item)),
    warnings: manifest.warnings.filter(w => other(w.split(':')[0]!)),
  };
}
