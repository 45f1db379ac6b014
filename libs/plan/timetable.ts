import { BusyTimes } from './busy-times.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';
import { FROZEN_MOVED, UNPLACED } from './placer.js';

/** Parts of the cost: what decides (see `PlanCost`), bay time blocked, finish. */
export interface TableCost {
  hard: number;
  blocked: number;
  finish: number;
}

/**
 * A plan as times, people, bays and tools of each operation and what they take, so that one operation is taken out or
 * put in while all others stay where they are. Started work is in it from the start.
 */
export class Timetable {
  /** -1 for what has no place (yet). */
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly crew: Int32Array;
  readonly bay: Int32Array;
  /** Units of tools in the places of `PlanModel.toolKinds`. */
  readonly unit: Int32Array;
  /** Technicians, bays and tools as in the model; owners are operations, in bays holds. */
  readonly busy: readonly BusyTimes[];

  /** Where the car of a hold stands and from when to when; `stayCount` operations of it are in. */
  readonly stayBay: Int32Array;
  readonly stayFrom: Int32Array;
  readonly stayTo: Int32Array;
  readonly stayCount: Int32Array;
  readonly holdMembers: readonly (readonly number[])[];
  readonly holdOrder: Int32Array;
  /** 1 for holds in which work was started. */
  readonly wasStarted: Uint8Array;

  /** What each operation's change and each repair order's lateness cost. */
  private readonly changeCost: Float64Array;
  private readonly orderCost: Float64Array;
  private readonly orderBlocked: Float64Array;
  private readonly orderFinish: Float64Array;
  /** Counts what was put in or taken out, so that what was found for one state is not taken for another. */
  changes = 0;
  readonly cost: TableCost = { hard: 0, blocked: 0, finish: 0 };
  private readonly isStale: Uint8Array;
  private readonly stale: number[] = [];

  constructor(readonly model: PlanModel) {
    const n = model.operations;
    const none = (size: number): Int32Array => new Int32Array(size).fill(-1);
    [this.start, this.end, this.crew, this.bay] = [none(n), none(n), none(n), none(n)];
    this.unit = none(model.toolKinds.item.length);
    this.busy = Array.from({ length: model.car0 }, () => new BusyTimes());
    [this.stayBay, this.stayFrom, this.stayTo] = [none(model.holds), none(model.holds), none(model.holds)];
    this.stayCount = new Int32Array(model.holds);
    const members: number[][] = Array.from({ length: model.holds }, () => []);
    this.holdOrder = new Int32Array(model.holds);
    model.hold.forEach((hold, o) => {
      if (hold < 0) return;
      members[hold]?.push(o);
      this.holdOrder[hold] = model.order[o] ?? 0;
    });
    this.holdMembers = members;
    this.wasStarted = new Uint8Array(model.holds);
    this.changeCost = new Float64Array(n);
    this.orderCost = new Float64Array(model.orders);
    this.orderBlocked = new Float64Array(model.orders);
    this.orderFinish = new Float64Array(model.orders);
    this.isStale = new Uint8Array(model.orders);
    this.close();
    this.enterStarted();
    for (let o = 0; o < n; o++) this.charge(o);
    for (let order = 0; order < model.orders; order++) this.touch(order);
  }

  /** Closed times; those that are kept for a pin belong to whoever is pinned and need no entry. */
  private close(): void {
    const { first, item } = this.model.closed;
    this.busy.forEach((list, resource) => {
      for (let k = first[resource] ?? 0; k < (first[resource + 1] ?? 0); k += 3)
        if (item[k + 2] === -1) list.add(item[k] ?? 0, item[k + 1] ?? 0, -1);
    });
  }

  private enterStarted(): void {
    const { model } = this;
    for (const { operation: o, start, end, bay, technicians, tools } of model.started) {
      this.start[o] = start;
      this.end[o] = end;
      this.bay[o] = bay;
      for (const one of technicians) this.busy[one]?.add(start, end, o);
      for (const one of tools) this.busy[model.tool0 + one]?.add(start, end, o);
      const hold = model.hold[o] ?? -1;
      if (hold < 0 || bay < 0) continue;
      this.wasStarted[hold] = 1;
      this.stand(hold, bay, start, end);
    }
  }

  /** Gives an operation its place, which must be free. */
  put(o: number, start: number, end: number, crew: number, bay: number, units: Int32Array): void {
    const { model } = this;
    this.changes++;
    this.start[o] = start;
    this.end[o] = end;
    this.crew[o] = crew;
    this.bay[o] = bay;
    this.busy[model.crewLead[crew] ?? 0]?.add(start, end, o);
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0) this.busy[helper]?.add(start, end, o);
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++) {
      const unit = units[slot] ?? -1;
      this.unit[slot] = unit;
      this.busy[unit]?.add(start, end, o);
    }
    if (bay >= 0) this.stand(model.hold[o] ?? 0, bay, start, end);
    this.charge(o);
    this.touch(model.order[o] ?? 0);
  }

  take(o: number): void {
    const { model } = this;
    this.changes++;
    const [start, crew] = [this.start[o] ?? 0, this.crew[o] ?? 0];
    this.busy[model.crewLead[crew] ?? 0]?.remove(start, o);
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0) this.busy[helper]?.remove(start, o);
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      this.busy[this.unit[slot] ?? -1]?.remove(start, o);
    this.start[o] = -1;
    this.end[o] = -1;
    this.crew[o] = -1;
    if ((this.bay[o] ?? -1) >= 0) this.leave(model.hold[o] ?? 0);
    this.bay[o] = -1;
    this.charge(o);
    this.touch(model.order[o] ?? 0);
  }

  private stand(hold: number, bay: number, start: number, end: number): void {
    const list = this.busy[this.model.bay0 + bay];
    if ((this.stayCount[hold] ?? 0) > 0) {
      const [from, to] = [this.stayFrom[hold] ?? 0, this.stayTo[hold] ?? 0];
      this.stayCount[hold] = (this.stayCount[hold] ?? 0) + 1;
      if (start >= from && end <= to) return;
      list?.remove(from, hold);
      this.stayFrom[hold] = Math.min(from, start);
      this.stayTo[hold] = Math.max(to, end);
    } else {
      this.stayCount[hold] = 1;
      this.stayBay[hold] = bay;
      this.stayFrom[hold] = start;
      this.stayTo[hold] = end;
    }
    list?.add(this.stayFrom[hold] ?? 0, this.stayTo[hold] ?? 0, hold);
  }

  private leave(hold: number): void {
    const list = this.busy[this.model.bay0 + (this.stayBay[hold] ?? 0)];
    list?.remove(this.stayFrom[hold] ?? 0, hold);
    const left = (this.stayCount[hold] ?? 0) - 1;
    this.stayCount[hold] = left;
    if (left === 0) return;
    let [from, to] = [Infinity, -1];
    for (const o of this.holdMembers[hold] ?? []) {
      const start = this.start[o] ?? -1;
      if (start < 0) continue;
      if (start < from) from = start;
      if ((this.end[o] ?? 0) > to) to = this.end[o] ?? 0;
    }
    this.stayFrom[hold] = from;
    this.stayTo[hold] = to;
    list?.add(from, to, hold);
  }

  /** What it costs that an operation is there and not where the previous plan has it; without a place, all of that. */
  changeOf(o: number, start: number, crew: number, bay: number): number {
    const { previous, crewLead, crewHelper } = this.model;
    const was = previous.start[o] ?? -1;
    if (was < 0) return 0;
    const isMoved = start !== was;
    const isOther = crewLead[crew] !== previous.lead[o] || (crewHelper[crew] ?? -1) !== previous.helper[o];
    const isElsewhere = bay !== previous.bay[o];
    if (!isMoved && !isOther && !isElsewhere) return 0;
    let cost = previous.isFrozen[o] === 1 ? FROZEN_MOVED : 0;
    if (isMoved) cost += (previous.moved[o] ?? 0) + Math.abs(start - was) * (previous.minuteMoved[o] ?? 0);
    if (isOther) cost += previous.technician[o] ?? 0;
    if (isElsewhere) cost += previous.bayChanged[o] ?? 0;
    return cost;
  }

  private charge(o: number): void {
    if (this.model.isStarted[o] === 1) return;
    const start = this.start[o] ?? -1;
    const frozen = this.model.previous.isFrozen[o] === 1 ? FROZEN_MOVED : 0;
    const cost =
      start < 0 ? UNPLACED + frozen : this.changeOf(o, start, this.crew[o] ?? -1, this.bay[o] ?? -1);
    this.cost.hard += cost - (this.changeCost[o] ?? 0);
    this.changeCost[o] = cost;
  }

  /** Sums the changes anew: what came of placing many operations is not quite exact any more. */
  recount(): void {
    this.settle();
    const sum = (costs: Float64Array): number => costs.reduce((all, cost) => all + cost, 0);
    this.cost.hard = sum(this.changeCost) + sum(this.orderCost);
  }

  private touch(order: number): void {
    if (this.isStale[order] === 1) return;
    this.isStale[order] = 1;
    this.stale.push(order);
  }

  /** What a repair order's lateness costs. */
  lateOf(order: number): number {
    return this.orderCost[order] ?? 0;
  }

  /** When a repair order was ready when it was last summed up. */
  readyOf(order: number): number {
    return this.orderFinish[order] ?? 0;
  }

  changeCostOf(o: number): number {
    return this.changeCost[o] ?? 0;
  }

  /** Sums up what was touched; `cost` is right after it. */
  settle(): TableCost {
    const { model, cost } = this;
    for (const order of this.stale) {
      this.isStale[order] = 0;
      let ready = Math.min(0, model.due[order] ?? 0);
      const last = model.orderEnd[order] ?? 0;
      for (let o = model.orderFirst[order] ?? 0; o < last; o++)
        if ((this.end[o] ?? -1) > ready) ready = this.end[o] ?? 0;
      const over = ready - (model.due[order] ?? 0);
      const late = over > 0 ? over * (model.weight[order] ?? 0) * PER_MINUTE : 0;
      const blocked = this.blockedOf(order);
      cost.hard += late - (this.orderCost[order] ?? 0);
      cost.finish += ready - (this.orderFinish[order] ?? 0);
      cost.blocked += blocked - (this.orderBlocked[order] ?? 0);
      this.orderCost[order] = late;
      this.orderFinish[order] = ready;
      this.orderBlocked[order] = blocked;
    }
    this.stale.length = 0;
    return cost;
  }

  private blockedOf(order: number): number {
    const { model } = this;
    const last = model.orderEnd[order] ?? 0;
    let blocked = 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++) {
      const hold = model.hold[o] ?? -1;
      if (hold < 0 || (model.several[hold] ?? -1) < 0 || (this.stayCount[hold] ?? 0) === 0) continue;
      if (this.holdMembers[hold]?.find((one) => (this.start[one] ?? -1) >= 0) !== o) continue;
      const [from, to] = [this.stayFrom[hold] ?? 0, this.stayTo[hold] ?? 0];
      blocked += to - from;
      for (let one = model.orderFirst[order] ?? 0; one < last; one++)
        if ((this.bay[one] ?? -1) >= 0 && (this.start[one] ?? 0) >= from && (this.end[one] ?? 0) <= to)
          blocked -= (this.end[one] ?? 0) - (this.start[one] ?? 0);
    }
    return blocked;
  }
}
