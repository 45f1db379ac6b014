import { FAR } from './far.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlaceWishes } from './place-wishes.js';
import { readyOf } from './start-window.js';
import type { Timetable } from './timetable.js';

/** How likely each kind of attempt is, summed up. */
const PULL = 0.4;
const PUT_BACK = 0.6;
const WINDOW = 0.75;
/** The window that is emptied at one resource, in minutes. */
const NARROW = 60;
const WIDE = 1440;

/** The part of lateness that counts when it was there before. */
const OLD_LATENESS = 0.1;

/** Chooses what is taken out of a timetable to be put in again, those of lower rank first. */
export class TakeOuts {
  /** What each repair order's lateness cost in the previous plan. */
  private readonly lateBefore: Float64Array;

  constructor(
    private readonly table: Timetable,
    private readonly free: readonly number[],
    private readonly random: () => number,
    private readonly takeOut: (operation: number, rank: number) => void,
    private readonly wishes: PlaceWishes,
    private readonly isMovable: Uint8Array,
  ) {
    const { model } = table;
    this.lateBefore = new Float64Array(model.orders);
    for (let o = 0; o < model.operations; o++) {
      const order = model.order[o] ?? 0;
      const over = (model.previous.end[o] ?? -1) - (model.due[order] ?? 0);
      const late = over * (model.weight[order] ?? 0) * PER_MINUTE;
      if (late > (this.lateBefore[order] ?? 0)) this.lateBefore[order] = late;
    }
  }

  /** How much a repair order asks for help: what it is later than it was counts whole, old lateness a little. */
  private needOf(order: number): number {
    const late = this.table.lateOf(order);
    const old = this.lateBefore[order] ?? 0;
    return Math.sqrt(Math.max(late - old, OLD_LATENESS * late));
  }

  private below(count: number): number {
    return Math.floor(this.random() * count);
  }

  /** Takes something out. */
  some(): void {
    const dice = this.random();
    if (dice < PULL) this.pull();
    else if (dice < PUT_BACK) this.putBack();
    else if (dice < WINDOW) this.emptyWindow();
    else this.takeOrders();
  }

  /** A repair order that is late, the worse the likelier; any where none is. */
  private pickLate(): number {
    const { table } = this;
    const { model } = table;
    let sum = 0;
    for (let order = 0; order < model.orders; order++) sum += this.needOf(order);
    let left = this.random() * sum;
    if (sum > 0)
      for (let order = 0; order < model.orders; order++) {
        const need = this.needOf(order);
        left -= need;
        if (left <= 0 && need > 0) return order;
      }
    return this.below(model.orders);
  }

  private takeOrder(order: number, from: number, rank: number): void {
    const { model } = this.table;
    const last = model.orderEnd[order] ?? 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++)
      if ((this.table.start[o] ?? -1) >= from) this.takeOut(o, rank);
  }

  /** A late repair order, from something on that waits, goes in first, sooner, and pushes. */
  private pull(): void {
    const { table } = this;
    const { model } = table;
    const order = this.pickLate();
    const last = model.orderEnd[order] ?? 0;
    let picked = -1;
    let seen = 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++) {
      const start = table.start[o] ?? -1;
      if (start > readyOf(table, o) && this.isMovable[o] === 1 && this.random() * ++seen < 1) picked = o;
    }
    if (picked < 0) return;
    this.wishes.ask(picked, 'sooner');
    this.takeOrder(order, table.start[picked] ?? 0, -FAR);
  }

  /** What is not where it was goes back, and whoever is there gives way. */
  private putBack(): void {
    const { table, free } = this;
    const { model } = table;
    let picked = -1;
    let seen = 0;
    for (const o of free)
      if (
        (table.start[o] ?? -1) >= 0 &&
        this.isMovable[o] === 1 &&
        table.changeCostOf(o) > 0 &&
        this.random() * ++seen < 1
      )
        picked = o;
    if (picked < 0) {
      this.emptyWindow();
      return;
    }
    if (this.random() < 0.5) {
      this.wishes.ask(picked, 'back');
      this.takeOut(picked, -FAR);
      return;
    }
    const order = model.order[picked] ?? 0;
    const last = model.orderEnd[order] ?? 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++)
      if (table.changeCostOf(o) > 0 && this.isMovable[o] === 1) {
        this.wishes.ask(o, 'back');
        this.takeOut(o, -FAR);
      }
  }

  /** All that one technician or bay has in a window, around something late or anything. */
  private emptyWindow(): void {
    const { table, free } = this;
    const { model } = table;
    let o = free[this.below(free.length)] ?? 0;
    if (this.random() < 0.7) {
      const order = this.pickLate();
      const first = model.orderFirst[order] ?? 0;
      o = first + this.below((model.orderEnd[order] ?? 0) - first);
    }
    const start = table.start[o] ?? -1;
    const crew = table.crew[o] ?? -1;
    if (start < 0 || crew < 0) return;
    const wide = NARROW * (WIDE / NARROW) ** this.random();
    const from = start - wide * this.random();
    const bay = table.bay[o] ?? -1;
    const resource = bay >= 0 && this.random() < 0.5 ? model.bay0 + bay : (model.crewLead[crew] ?? 0);
    // What is late goes in first where there is room now, the rest after it.
    if (this.random() < 0.5) this.takeOrder(model.order[o] ?? 0, 0, -FAR);
    const list = table.busy[resource];
    const owners: number[] = [];
    if (list !== undefined)
      for (let k = 0; k < list.count; k++)
        if ((list.to[k] ?? 0) > from && (list.from[k] ?? 0) < from + wide && (list.owner[k] ?? -1) >= 0)
          owners.push(list.owner[k] ?? 0);
    const isByChance = this.random() < 0.5;
    if (this.isMovable[o] === 1) this.wishes.ask(o, 'elsewhere');
    for (const owner of owners) {
      const members = resource >= model.bay0 ? (table.holdMembers[owner] ?? []) : [owner];
      for (const one of members) this.takeOut(one, isByChance ? this.random() * FAR : this.dueStart(one));
    }
  }

  private dueStart(o: number): number {
    const { model } = this.table;
    return (model.due[model.order[o] ?? 0] ?? FAR) - (model.tail[o] ?? 0);
  }

  /** A late repair order with two or three others, in an order by chance. */
  private takeOrders(): void {
    const count = 1 + this.below(2);
    const { table } = this;
    const { model } = table;
    const late = this.pickLate();
    const first = model.orderFirst[late] ?? 0;
    const probe = first + this.below((model.orderEnd[late] ?? 0) - first);
    const near = table.start[probe] ?? 0;
    if (this.isMovable[probe] === 1 && near >= 0) this.wishes.ask(probe, 'elsewhere');
    this.takeOrder(late, 0, this.random() * FAR);
    for (let k = 0; k < count; k++) {
      let o = this.free[this.below(this.free.length)] ?? 0;
      for (let tries = 0; tries < 8 && Math.abs((table.start[o] ?? 0) - near) > 480; tries++)
        o = this.free[this.below(this.free.length)] ?? 0;
      this.takeOrder(
        model.order[o] ?? 0,
        this.random() < 0.5 ? 0 : (table.start[o] ?? 0),
        this.random() * FAR,
      );
    }
  }
}
