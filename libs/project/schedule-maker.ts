import type { Neighbours, ProjectModel } from './project-model.js';
import { Timeline } from './timeline.js';

/** Turns lists of activities into schedules: every activity as early as its predecessors and the resources allow. */
export class ScheduleMaker {
  /** How many schedules were made. */
  made = 0;
  private readonly timeline: Timeline;
  private readonly buckets: Int32Array;
  private readonly sorted: Int32Array;
  private readonly turned: Int32Array;
  private readonly spare: Int32Array;

  constructor(private readonly model: ProjectModel) {
    this.timeline = new Timeline(model.packing, model.renewable, model.horizon);
    this.buckets = new Int32Array(model.horizon + 1);
    this.sorted = new Int32Array(model.size);
    this.turned = new Int32Array(model.size);
    this.spare = new Int32Array(model.size);
  }

  /** Fills `starts` from a list in which no activity stands before one that it waits for. Returns the makespan. */
  forward(list: Int32Array, modes: Int32Array, starts: Int32Array): number {
    return this.pass(list, modes, starts, this.model.predecessors);
  }

  /**
   * Pushes everything as late as it goes, then as early as it goes (double justification: Valls, Ballestín, Quintanilla
   * 2005, from memory), which never makes it later. `list` becomes the order of starts.
   */
  justify(list: Int32Array, modes: Int32Array, starts: Int32Array, makespan: number): number {
    const { duration, predecessors, successors, size } = this.model;
    const { spare, turned } = this;
    for (let at = 0; at < size; at++)
      spare[at] = makespan - (starts[at] ?? 0) - (duration[modes[at] ?? 0] ?? 0);
    // Turned round, so that of two that end together the one that waits for the other comes first.
    list.reverse();
    this.sortBy(list, spare);
    const late = this.pass(list, modes, turned, successors);
    for (let at = 0; at < size; at++) spare[at] = late - (turned[at] ?? 0) - (duration[modes[at] ?? 0] ?? 0);
    list.reverse();
    this.sortBy(list, spare);
    const early = this.pass(list, modes, starts, predecessors);
    this.sortBy(list, starts);
    return early;
  }

  /** As `forward`, but `choose` may give an activity another mode, knowing the time from which it could start. */
  forwardChoosing(
    list: Int32Array,
    modes: Int32Array,
    starts: Int32Array,
    choose: (at: number, from: number) => number,
  ): number {
    const { duration, packing, wants, predecessors } = this.model;
    const { first, at: neighbour } = predecessors;
    this.made++;
    this.timeline.clear();
    let makespan = 0;
    for (const at of list) {
      let from = 0;
      for (let index = first[at] ?? 0; index < (first[at + 1] ?? 0); index++) {
        const other = neighbour[index] ?? 0;
        from = Math.max(from, (starts[other] ?? 0) + (duration[modes[other] ?? 0] ?? 0));
      }
      const mode = choose(at, from);
      const takes = duration[mode] ?? 0;
      modes[at] = mode;
      const start = this.timeline.place(from, takes, wants, mode * packing.words);
      starts[at] = start;
      makespan = Math.max(makespan, start + takes);
    }
    return makespan;
  }

  /** When a mode that may start from `from` on would be done, by what is placed so far. */
  doneAt(mode: number, from: number): number {
    const { duration, packing, wants } = this.model;
    const takes = duration[mode] ?? 0;
    return this.timeline.look(from, takes, wants, mode * packing.words) + takes;
  }

  /** Sorts a list by a whole number of each activity; what is equal stays in the order it was in. */
  sortBy(list: Int32Array, keys: Int32Array): void {
    const { buckets, sorted } = this;
    let top = 0;
    for (const at of list) {
      const key = (keys[at] ?? 0) + 1;
      buckets[key] = (buckets[key] ?? 0) + 1;
      if (key > top) top = key;
    }
    for (let key = 1; key <= top; key++) buckets[key] = (buckets[key] ?? 0) + (buckets[key - 1] ?? 0);
    for (const at of list) {
      const key = keys[at] ?? 0;
      const place = buckets[key] ?? 0;
      sorted[place] = at;
      buckets[key] = place + 1;
    }
    list.set(sorted);
    buckets.fill(0, 0, top + 1);
  }

  private pass(list: Int32Array, modes: Int32Array, starts: Int32Array, before: Neighbours): number {
    const { duration, packing, wants } = this.model;
    const { first, at: neighbour } = before;
    const { timeline } = this;
    const { words } = packing;
    this.made++;
    timeline.clear();
    let makespan = 0;
    for (const at of list) {
      let from = 0;
      const end = first[at + 1] ?? 0;
      for (let index = first[at] ?? 0; index < end; index++) {
        const other = neighbour[index] ?? 0;
        const done = (starts[other] ?? 0) + (duration[modes[other] ?? 0] ?? 0);
        if (done > from) from = done;
      }
      const mode = modes[at] ?? 0;
      const takes = duration[mode] ?? 0;
      const start = timeline.place(from, takes, wants, mode * words);
      starts[at] = start;
      if (start + takes > makespan) makespan = start + takes;
    }
    return makespan;
  }
}
