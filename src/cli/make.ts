/** Reads a job, checks all of it, makes its files, and says what was made. */
import { join, resolve } from 'node:path';
import { LAWS } from '../fold/index.js';
import type { Document, Fault, Source } from '../job/index.js';
import { formatFaults, inOrder, nearest } from '../job/index.js';
import type { Design, Item } from '../model.js';
import { type PlannedItem, planItem } from '../pipeline.js';
import { type Manifest, type ManifestFacts, manifestText, parseManifest } from '../write/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { failuresOf, type MadeItem, makeItem } from './make-item.js';
import type { MakingOptions } from './output-options.js';
import { startProgress } from './progress.js';
import { openSession, type Session } from './session.js';
import { openStore, type Store } from './store.js';
import { type RunResult, summaryText } from './summary.js';
import { workersFor } from './workers.js';

/** Plans of small jobs are kept from the check to the making; a long table's are made again, so
 *  that memory does not grow with it. */
const MOST_PLANS_KEPT = 100;

export interface MakeOptions extends MakingOptions {
  /** Only these items; the others' files are left as they are. */
  readonly only?: readonly string[];
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
  try {
    const plans = checkAll(session, items, environment);
    const result = store
      ? await makeAll({ source, session, items, plans, store, partial, options, environment })
      : checked(design, items, plans);
    environment.out(
      options.json
        ? JSON.stringify(result, undefined, 2)
        : summaryText(result, design, shownFolder(options.out, design.name)),
    );
    return result.failures.length > 0 ? EXIT.checkFailed : EXIT.good;
  } finally {
    store?.abandon();
  }
}

const shownFolder = (out: string, job: string) => join(out, job);

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

/** What is known of every item before the first byte is written. */
interface Checked {
  readonly plans: ReadonlyMap<string, PlannedItem>;
  readonly failures: readonly string[];
  readonly warnings: readonly string[];
}

/** Plans every item; all faults of all items are told at once. */
function checkAll(
  { design, kit, faultOf }: Session,
  items: readonly Item[],
  environment: Environment,
): Checked {
  const progress = startProgress('checking', items.length, environment);
  const plans = new Map<string, PlannedItem>();
  const failures: string[] = [];
  const warnings: string[] = [];
  const faults: Fault[] = [];
  for (const item of items) {
    const plan = planItem(item, design, kit);
    for (const { decoration, message } of plan.faults) {
      faults.push(faultOf(item.name, decoration === undefined ? 'size' : { decoration }, message));
    }
    failures.push(...failuresOf(plan).map(f => `${item.name}: ${f}`));
    warnings.push(...plan.warnings.map(w => `${item.name}: ${w}`));
    if (items.length <= MOST_PLANS_KEPT) plans.set(item.name, plan);
    progress.step(item.name);
  }
  progress.stop();
  if (faults.length > 0) throw new InputError(formatFaults(inOrder(faults)));
  return { plans, failures, warnings };
}

function checked(
  design: Design,
  items: readonly Item[],
  { failures, warnings }: Checked,
): RunResult {
  return { job: design.name, items: items.length, failures, warnings };
}

interface Run {
  readonly source: Source | Document;
  readonly session: Session;
  readonly items: readonly Item[];
  readonly plans: Checked;
  readonly store: Store;
  readonly partial: boolean;
  readonly options: MakeOptions;
  readonly environment: Environment;
}

async function makeAll(run: Run): Promise<RunResult> {
  const { session, items, plans, store, partial, environment } = run;
  const { design } = session;
  const progress = startProgress('making', items.length, environment);
  const files: ManifestFacts['files'][number][] = [];
  const sheets: ManifestFacts['sheets'][number][] = [];
  const closures: ManifestFacts['closures'][number][] = [];
  const nets: ManifestFacts['nets'][number][] = [];
  const warnings: string[] = [];
  const failures: string[] = [];
  for await (const made of makeEach(run, plans.plans)) {
    for (const { entry, bytes } of made.files) {
      store.put(entry.path, bytes);
      files.push(entry);
    }
    sheets.push(...made.sheets);
    closures.push(...made.closures);
    nets.push(...made.nets);
    warnings.push(...made.warnings.map(w => `${made.name}: ${w}`));
    failures.push(...made.failures.map(f => `${made.name}: ${f}`));
    progress.step(made.name);
  }
  progress.stop();
  const old = partial ? previous(store, new Set(items.map(i => i.name))) : undefined;
  const manifest = manifestText({
    version: environment.version,
    job: design.name,
    title: design.title,
    files: [...(old?.files ?? []), ...files],
    sheets: [...(old?.sheets ?? []), ...sheets],
    closures: [...(old?.closures ?? []), ...closures],
    laws: LAWS,
    nets: [...(old?.nets ?? []), ...nets],
    warnings: [...(old?.warnings ?? []), ...warnings],
  });
  const stored = store.finish(manifest);
  return { job: design.name, items: items.length, files, sheets, failures, warnings, stored };
}

/** Every item in the order of the job, on this thread or on workers. */
async function* makeEach(
  { source, session, items, options, environment }: Run,
  plans: ReadonlyMap<string, PlannedItem>,
): AsyncGenerator<MadeItem> {
  const workers = workersFor(items.length, options.workers);
  if (workers > 1) {
    const { onWorkers } = await import('./workers.js');
    yield* onWorkers(
      workers,
      source,
      options,
      environment,
      items.map(i => i.name),
    );
    return;
  }
  for (const item of items) yield await makeItem(session, item, plans.get(item.name));
}

/** What an earlier run's manifest says of the items that this one leaves alone. */
function previous(
  store: Store,
  remade: ReadonlySet<string>,
): Pick<Manifest, 'files' | 'sheets' | 'closures' | 'nets' | 'warnings'> | undefined {
  if (!store.previous) return undefined;
  const manifest = parseManifest(JSON.stringify(store.previous));
  const other = (item: string) => !remade.has(item);
  return {
    files: manifest.files.filter(f => other(f.path.split('/')[0]!)),
    sheets: manifest.sheets.filter(s => other(s.item)),
    closures: manifest.closures.filter(c => other(c.item)),
    nets: manifest.nets.filter(n => other(n.item)),
    warnings: manifest.warnings.filter(w => other(w.split(':')[0]!)),
  };
}
