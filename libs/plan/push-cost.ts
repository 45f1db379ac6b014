import { finishOf } from './finish-of.js';
import { PER_MINUTE } from './plan-model.js';
import type { Timetable } from './timetable.js';

/** Who wants a resource: an operation, or (of a bay) a car, which does not stand in its own way. */
export type Wanting = { readonly operation: number } | { readonly order: number };

/** Estimates what it costs that those who have something give way. */
export class PushCost {
  // What it costs to step aside at the same time, and the state of the timetable for which that was found.
  private readonly holdAside: Float64Array;
  private readonly holdAsOf: Int32Array;
  private readonly operationAside: Float64Array;
  private readonly operationAsOf: Int32Array;

  constructor(private readonly table: Timetable) {
    const { holds, operations } = table.model;
    this.holdAside = new Float64Array(holds);
    this.holdAsOf = new Int32Array(holds).fill(-1);
    this.operationAside = new Float64Array(operations);
    this.operationAsOf = new Int32Array(operations).fill(-1);
  }

  /**
   * About what it costs, in `PER_MINUTE`ths of a minute, that all who have a resource in [from, to) give way to what
   * wants it; not told exactly past `most`.
   */
  of(resource: number, [from, to]: readonly [number, number], who: Wanting, most = Infinity): number {
    const list = this.table.busy[resource];
    if (list === undefined) return 0;
    let cost = 0;
    for (let k = list.firstEndingAfter(from); k < list.count; k++) {
      const begins = list.from[k] ?? 0;
      if (begins >= to) break;
      const owner = list.owner[k] ?? -1;
      if ((list.to[k] ?? 0) <= from || owner < 0) continue;
      if ('operation' in who ? owner === who.operation : this.table.holdOrder[owner] === who.order) continue;
      cost += 1 + ('order' in who ? this.ofHold(owner, to - begins) : this.ofOperation(owner, to - begins));
      if (cost >= most) break;
    }
    return cost;
  }

  /** A whole hold goes: to another bay that is free at the same time, or so much later. */
  private ofHold(hold: number, minutes: number): number {
    const { table } = this;
    const { previous } = table.model;
    let cost = this.lateness(table.holdOrder[hold] ?? 0, minutes);
    for (const one of table.holdMembers[hold] ?? [])
      cost += (previous.moved[one] ?? 0) + minutes * (previous.minuteMoved[one] ?? 0);
    if (this.holdAsOf[hold] !== table.changes) {
      this.holdAsOf[hold] = table.changes;
      this.holdAside[hold] = this.otherBay(hold);
    }
    return Math.min(cost, this.holdAside[hold] ?? 0);
  }

  /** An operation goes: to somebody else who is free at the same time, or so much later. */
  private ofOperation(o: number, minutes: number): number {
    const { table } = this;
    const { previous, order } = table.model;
    const cost =
      this.lateness(order[o] ?? 0, minutes) +
      (previous.moved[o] ?? 0) +
      minutes * (previous.minuteMoved[o] ?? 0);
    if (this.operationAsOf[o] !== table.changes) {
      this.operationAsOf[o] = table.changes;
      this.operationAside[o] = this.otherCrew(o);
    }
    return Math.min(cost, this.operationAside[o] ?? 0);
  }

  /** What a repair order's lateness costs more when it is ready so much later. */
  private lateness(order: number, minutes: number): number {
    const { table } = this;
    const over = table.readyOf(order) + minutes - (table.model.due[order] ?? 0);
    const late = over > 0 ? over * (table.model.weight[order] ?? 0) * PER_MINUTE : 0;
    return Math.max(0, late - table.lateOf(order));
  }

  private otherBay(hold: number): number {
    const { table } = this;
    const { holdBays, previous, bay0 } = table.model;
    const [from, to] = [table.stayFrom[hold] ?? 0, table.stayTo[hold] ?? 0];
    const standing = table.stayBay[hold] ?? -1;
    const mates = table.holdMembers[hold] ?? [];
    let least = Infinity;
    for (let k = holdBays.first[hold] ?? 0; k < (holdBays.first[hold + 1] ?? 0); k++) {
      const bay = holdBays.item[k] ?? 0;
      if (bay === standing || table.busy[bay0 + bay]?.isFree(from, to) !== true) continue;
      let cost = 0;
      for (const one of mates) if (previous.bay[one] !== bay) cost += previous.bayChanged[one] ?? 0;
      if (cost < least) least = cost;
    }
    return least;
  }

  private otherCrew(o: number): number {
    const { table } = this;
    const { model } = table;
    const [start, end] = [table.start[o] ?? 0, table.end[o] ?? 0];
    const is = table.crew[o] ?? -1;
    let least = Infinity;
    for (let crew = model.crewFirst[o] ?? 0; crew < (model.crewFirst[o + 1] ?? 0); crew++) {
      if (crew === is || table.busy[model.crewLead[crew] ?? 0]?.isFree(start, end) !== true) continue;
      const helper = model.crewHelper[crew] ?? -1;
      if (helper >= 0 && table.busy[helper]?.isFree(start, end) !== true) continue;
      if (finishOf(model, crew, start) > end) continue;
      const cost = crew === model.previous.crew[o] ? 0 : (model.previous.technician[o] ?? 0);
      if (cost < least) least = cost;
    }
    return least;
  }
}
