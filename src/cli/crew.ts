/** Who checks and makes the items: this thread, or workers. Both give the same, in the same order. */
import type { Item } from '../model.js';
import { type PlannedItem, planItem, type SheetFault } from '../pipeline.js';
import { failuresOf, type MadeItem, makeItem, proofsOf } from './make-item.js';
import type { Session } from './session.js';

/** What is known of an item before its first byte is made. */
export interface CheckedItem {
  readonly name: string;
  readonly faults: readonly SheetFault[];
  /** Laws of nets that are broken; none where the proofs were not asked for. */
  readonly failures: readonly string[];
  readonly warnings: readonly string[];
}

export interface Crew {
  /** Both in the order of the names. An error of ours is thrown. */
  check(names: readonly string[], proofs: boolean): AsyncGenerator<CheckedItem>;
  make(names: readonly string[]): AsyncGenerator<MadeItem>;
  stop(): Promise<void>;
}

/** Plans of small jobs are kept from the check to the making; a long table's are made again, so
 *  that memory does not grow with it. */
const MOST_PLANS_KEPT = 100;

/** One thread's share of the work on a job that has been read. */
export class Hand {
  private readonly items: ReadonlyMap<string, Item>;
  private readonly plans = new Map<string, PlannedItem>();

  constructor(private readonly session: Session) {
    this.items = new Map(session.design.items.map(item => [item.name, item]));
  }

  check(name: string, proofs: boolean): CheckedItem {
    const plan = planItem(this.item(name), this.session.design, this.session.kit);
    if (this.plans.size < MOST_PLANS_KEPT) this.plans.set(name, plan);
    const { faults, warnings } = plan;
    return { name, faults, failures: proofs ? failuresOf(plan, proofsOf(plan)) : [], warnings };
  }

  async make(name: string): Promise<MadeItem> {
    const made = await makeItem(this.session, this.item(name), this.plans.get(name));
    this.plans.delete(name);
    return made;
  }

  private item(name: string): Item {
    const item = this.items.get(name);
    if (!item) throw new Error(`no item ${name}`);
    return item;
  }
}

export function oneThread(session: Session): Crew {
  const hand = new Hand(session);
  return {
    async *check(names, proofs) {
      for (const name of names) yield hand.check(name, proofs);
    },
    async *make(names) {
      for (const name of names) yield await hand.make(name);
    },
    async stop() {},
  };
}
