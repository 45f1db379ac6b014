import { Draft } from './draft.js';
import type { Placer } from './placer.js';
import { SequenceMoves } from './sequence-moves.js';
import { SequenceStore } from './sequence-store.js';
import { SequenceTimes } from './sequence-times.js';
import { sortByStart } from './sort-by-start.js';

/** Simulated annealing over sequences. Goes on where it stopped; what it finds is placed by the placer. */
export class SequenceSearch {
  looked = 0;
  /** The least cost found so far, and whether the sequences could be set up at all. */
  least = Infinity;
  readonly store: SequenceStore;
  readonly times: SequenceTimes;
  readonly moves: SequenceMoves;
  private readonly bestMem: Int32Array;

  constructor(
    private readonly placer: Placer,
    private readonly free: readonly number[],
    private readonly random: () => number,
  ) {
    const { model } = placer;
    this.store = new SequenceStore(model, free);
    const { state } = placer.atStart;
    const { ready } = placer.shape;
    this.times = new SequenceTimes(
      this.store,
      state.slice(0, model.resources),
      state.slice(ready, ready + model.orders),
    );
    this.moves = new SequenceMoves(this.store, this.times, random);
    this.bestMem = new Int32Array(this.store.mem.length);
  }

  /**
   * Starts from a draft that was placed, every operation with a crew of its own. False when it cannot be told as
   * sequences: something has no place, or a car is worked on where it stands apart by work outside of the teardown.
   */
  begin(draft: Draft): boolean {
    if (!this.store.load(draft, this.placer.model.started)) return false;
    if (!this.times.begin()) return false;
    this.store.keep();
    this.moves.aim();
    this.note();
    return true;
  }

  /** Tries so many changes at a temperature; true when something better than all before was found. */
  walk(tries: number, temperature: number): boolean {
    const { store, times, moves } = this;
    let found = false;
    for (let k = 0; k < tries; k++) {
      this.looked++;
      const before = times.cost;
      moves.change();
      const allowed = -temperature * Math.log(this.random() + 1e-12);
      const isPossible = store.settle() && times.update(allowed);
      if (!isPossible || times.cost > before + allowed) {
        store.forget();
        store.undo();
        times.cost = before;
        continue;
      }
      store.keep();
      if (times.touchedCount > 0) moves.aim();
      if (times.cost < this.least - 1e-6) {
        this.note();
        found = true;
      }
    }
    return found;
  }

  private note(): void {
    this.least = this.times.cost;
    this.bestMem.set(this.store.mem);
  }

  /** Goes on from the best that was found. */
  goBack(): void {
    this.store.mem.set(this.bestMem);
    this.times.sumUp();
    this.moves.aim();
  }

  /** The best that was found, placed by the placer, which may do better still by units of tools. */
  best(): Draft {
    const { placer, store } = this;
    const draft = new Draft(placer.model, this.free);
    const now = store.mem.slice();
    store.mem.set(this.bestMem);
    const { crew, order, holdBay } = store.at;
    placer.begin(draft);
    draft.setOrder(order);
    for (const o of this.free) {
      draft.start[o] = this.times.startOf(o);
      draft.wish[o] = crew[o] ?? -1;
      const hold = store.hold[o] ?? -1;
      if (hold >= 0) draft.bayWish[hold] = holdBay[hold] ?? -1;
    }
    store.mem.set(now);
    sortByStart(draft);
    placer.begin(draft);
    placer.place(draft, 0, 0, Infinity, null);
    return draft;
  }

  get cost(): number {
    return this.times.cost;
  }
}
