import { apartUntil, bayApart, carFree } from './car-stays.js';
import { FAR } from './far.js';
import { advance } from './finish-of.js';
import { PER_MINUTE } from './plan-model.js';
import { PushCost } from './push-cost.js';
import { bucketsOf } from './rota.js';
import { latestOf, readyOf } from './start-window.js';
import type { Timetable } from './timetable.js';

const PER_CALENDAR = bucketsOf();
/** What a minute of finish weighs while places are compared, so that it decides among equals only. */
const FINISH_RATE = 0.0002 * PER_MINUTE;
/** Places that are tried one after the other for one crew when others may be pushed. */
const MOST_PUSHES = 6;
/** Gaps that are tried one after the other for one crew. */
const MOST_GAPS = 80;

/**
 * Finds a place for one operation among what stands in a timetable: the one that costs least in change, lateness and
 * (among equals) finish. With `mayPush` what may be moved does not stand in the way, at a price.
 */
export class PlaceFinder {
  start = 0;
  end = 0;
  crew = -1;
  bay = -1;
  cost = Infinity;
  readonly units: Int32Array;
  /** Multiplies costs of crews by chance between 1 and 1 + `noise`, so that the search sees other places. */
  noise = 0;
  /** What pushing is taken to cost, as a part of its estimate. */
  pushRate = 1;
  /** What the search asks of the place besides: to end by then, to start no sooner, to be somebody else's, to be the former. */
  endBy = FAR;
  notBefore = 0;
  notCrew = -1;
  isFormerOnly = false;
  /** The most that a place may cost in change and lateness, and whether one was passed over for it. */
  cap = Infinity;
  wasCapped = false;
  /** Whether others must give way to the place that was found. */
  isPush = false;
  private mayPush = false;
  private readonly unitsTried: Int32Array;
  private readonly pushing: PushCost;
  private s = 0;
  private e = 0;
  private latest = FAR;
  private order = 0;

  constructor(
    private readonly table: Timetable,
    /** 1 for operations and holds that the search may move. */
    private readonly isMovable: Uint8Array,
    private readonly isMovableHold: Uint8Array,
    private readonly random: () => number,
  ) {
    const slots = table.model.toolKinds.item.length;
    this.pushing = new PushCost(table);
    this.units = new Int32Array(slots).fill(-1);
    this.unitsTried = new Int32Array(slots).fill(-1);
  }

  /** Looks for the best place; false when there is none. */
  find(o: number, mayPush: boolean): boolean {
    const { model } = this.table;
    this.mayPush = false;
    this.cost = Infinity;
    this.wasCapped = false;
    this.crew = -1;
    this.isPush = false;
    const latest = latestOf(this.table, o);
    this.latest = latest < this.endBy ? latest : this.endBy;
    this.order = model.order[o] ?? 0;
    const released = readyOf(this.table, o);
    const ready = released > this.notBefore ? released : this.notBefore;
    const { previous } = model;
    const was = previous.start[o] ?? -1;
    const wasBay = previous.bay[o] ?? -1;
    const last = model.crewFirst[o + 1] ?? 0;
    const wasCrew = previous.crew[o] ?? -1;
    if (this.isFormerOnly)
      return wasCrew >= 0 && was >= ready && this.findFormerWithPush(o, wasCrew, was, wasBay);
    if (wasCrew >= 0 && was >= ready && wasCrew !== this.notCrew) this.tryCrew(o, wasCrew, was, wasBay);
    for (let crew = model.crewFirst[o] ?? 0; crew < last; crew++) {
      if (crew === this.notCrew) continue;
      const found = this.tryCrew(o, crew, ready, -1);
      if (was > ready && found < was) {
        this.tryCrew(o, crew, was, -1);
        const inTime = this.justInTime(o, crew);
        if (inTime > ready && inTime < was) this.tryCrew(o, crew, inTime, -1);
      }
      if (crew === wasCrew && wasBay >= 0 && this.bay !== wasBay)
        this.tryCrew(o, crew, was > ready ? was : ready, wasBay);
    }
    if (mayPush) this.findPush(o, ready);
    return this.crew >= 0;
  }

  /** When it would have to start to be ready as promised, were everybody always at work. */
  private justInTime(o: number, crew: number): number {
    const { due, tail, crewMinutes } = this.table.model;
    return (due[this.order] ?? 0) - (tail[o] ?? 0) - (crewMinutes[crew] ?? 0);
  }

  /** Places from which others would have to go: from the first that is possible to where its people begin or end something. */
  private findPush(o: number, ready: number): void {
    const { model } = this.table;
    this.mayPush = true;
    const last = model.crewFirst[o + 1] ?? 0;
    for (let crew = model.crewFirst[o] ?? 0; crew < last; crew++) {
      if (crew === this.notCrew) continue;
      let at = ready;
      for (let k = 0; k < MOST_PUSHES && at < FAR; k++) {
        const start = this.tryCrew(o, crew, at, -1);
        if (start >= FAR) break;
        at = this.nextEdge(model.crewLead[crew] ?? 0, start);
      }
    }
    const was = model.previous.start[o] ?? -1;
    const wasCrew = model.previous.crew[o] ?? -1;
    if (wasCrew >= 0 && was >= ready && wasCrew !== this.notCrew)
      this.tryCrew(o, wasCrew, was, model.previous.bay[o] ?? -1);
  }

  /** The place of the previous plan, whoever is there now. */
  private findFormerWithPush(o: number, crew: number, start: number, bay: number): boolean {
    this.tryCrew(o, crew, start, bay);
    if (this.crew < 0 || this.start !== start) {
      this.mayPush = true;
      this.cost = Infinity;
      this.tryCrew(o, crew, start, bay);
    }
    return this.crew >= 0 && this.start === start;
  }

  private nextEdge(resource: number, after: number): number {
    const list = this.table.busy[resource];
    let edge = FAR;
    for (let k = 0; list !== undefined && k < list.count; k++) {
      const [from, to] = [list.from[k] ?? 0, list.to[k] ?? 0];
      if (from > after && from < edge) edge = from;
      if (to > after && to < edge) edge = to;
      if (from > edge) break;
    }
    return edge;
  }

  /** Whether the place of the previous plan is free as it was. */
  findFormer(o: number): boolean {
    const { model } = this.table;
    const { previous } = model;
    this.mayPush = false;
    this.cost = Infinity;
    this.crew = -1;
    this.latest = latestOf(this.table, o);
    this.order = model.order[o] ?? 0;
    const [was, crew] = [previous.start[o] ?? -1, previous.crew[o] ?? -1];
    if (was < 0 || crew < 0 || was < readyOf(this.table, o)) return false;
    this.tryCrew(o, crew, was, previous.bay[o] ?? -1);
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      if (this.units[slot] !== previous.unit[slot]) return false;
    return (
      this.crew >= 0 && this.start === was && this.end === previous.end[o] && this.bay === previous.bay[o]
    );
  }

  /** Tries one crew from a time on; returns the start that was found, `FAR` when there is none. */
  private tryCrew(o: number, crew: number, from: number, onlyBay: number): number {
    const { table } = this;
    const { model } = table;
    const pin = model.pinStart[o] ?? -1;
    const hold = model.hold[o] ?? -1;
    let at = from;
    if (pin >= 0) {
      if (at > pin) return FAR;
      at = pin;
    }
    for (let gap = 0; gap < MOST_GAPS; gap++) {
      this.work(crew, at);
      const { s, e } = this;
      if (e >= FAR || e > this.latest || e > (model.crewUntil[crew] ?? 0)) return FAR;
      if (pin >= 0 && s !== pin) return FAR;
      const late = this.lateCost(o, crew);
      if (late >= this.cost) return FAR;
      if (late > this.cap) {
        this.wasCapped = true;
        return FAR;
      }
      const next = this.peopleAndTools(o, crew, s, e);
      if (next > s) {
        at = next;
        continue;
      }
      if (hold < 0) {
        this.offer(o, crew, -1);
        return s;
      }
      const opens = this.bays(o, hold, crew, onlyBay);
      if (opens <= s) return s;
      at = opens;
    }
    return FAR;
  }

  private lateCost(o: number, crew: number): number {
    const { model } = this.table;
    const tail = model.tail[o] ?? 0;
    const over = tail === 0 ? this.e : advance(model, model.crewCalendar[crew] ?? 0, this.e, tail);
    const late = over - (model.due[this.order] ?? 0);
    return (late > 0 ? late * (model.weight[this.order] ?? 0) * PER_MINUTE : 0) + FINISH_RATE * over;
  }

  private offer(o: number, crew: number, bay: number): void {
    const { table, s, e } = this;
    let cost = table.changeOf(o, s, crew, bay) + this.lateCost(o, crew);
    if (cost > this.cap) {
      this.wasCapped = true;
      return;
    }
    const push = this.mayPush ? this.pushCost(o, crew, bay) : 0;
    cost += this.pushRate * push;
    if (this.noise > 0) cost *= 1 + this.noise * this.random();
    if (cost >= this.cost) return;
    this.isPush = push > 0;
    this.cost = cost;
    this.start = s;
    this.end = e;
    this.crew = crew;
    this.bay = bay;
    const slots = table.model.toolKinds.first[o + 1] ?? 0;
    for (let slot = table.model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      this.units[slot] = this.unitsTried[slot] ?? -1;
  }

  /** What must give way is taken to move by a little at least. */
  private pushCost(o: number, crew: number, bay: number): number {
    const { model } = this.table;
    const span = [this.s, this.e] as const;
    let cost = this.pushing.of(model.crewLead[crew] ?? 0, span, { operation: o });
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0) cost += this.pushing.of(helper, span, { operation: o });
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      cost += this.pushing.of(this.unitsTried[slot] ?? -1, span, { operation: o });
    return bay >= 0 ? cost + this.pushedInBay(bay, model.hold[o] ?? 0) : cost;
  }

  private pushedInBay(bay: number, hold: number, most = Infinity): number {
    const { table, s, e } = this;
    const isIn = (table.stayCount[hold] ?? 0) > 0;
    const from = isIn ? Math.min(s, table.stayFrom[hold] ?? 0) : s;
    const to = isIn ? Math.max(e, table.stayTo[hold] ?? 0) : e;
    return this.pushing.of(table.model.bay0 + bay, [from, to], { order: this.order }, most);
  }

  /** The end of what takes a resource in [s, e) first; -1 when it is free. */
  private clash(resource: number, s: number, e: number, own: number): number {
    const list = this.table.busy[resource];
    if (list === undefined) return -1;
    const { from, to, owner, count } = list;
    for (let k = list.firstEndingAfter(s); k < count; k++) {
      if ((from[k] ?? 0) >= e) return -1;
      const who = owner[k] ?? -1;
      if ((to[k] ?? 0) <= s || (who === own && who >= 0)) continue;
      if (this.mayPush && who >= 0 && this.isMovable[who] === 1) continue;
      return to[k] ?? 0;
    }
    return -1;
  }

  private bayClash(bay: number, s: number, e: number, hold: number): number {
    const { table } = this;
    const list = table.busy[table.model.bay0 + bay];
    if (list === undefined) return -1;
    const { from, to, owner, count } = list;
    for (let k = list.firstEndingAfter(s); k < count; k++) {
      if ((from[k] ?? 0) >= e) return -1;
      if ((to[k] ?? 0) <= s) continue;
      const who = owner[k] ?? -1;
      if (who < 0) {
        if (table.wasStarted[hold] === 1) continue;
        return to[k] ?? 0;
      }
      if (table.holdOrder[who] === this.order) continue;
      if (this.mayPush && this.isMovableHold[who] === 1) continue;
      return to[k] ?? 0;
    }
    return -1;
  }

  private peopleAndTools(o: number, crew: number, s: number, e: number): number {
    const { model } = this.table;
    let next = this.clash(model.crewLead[crew] ?? 0, s, e, o);
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0) next = Math.max(next, this.clash(helper, s, e, o));
    if (next > s) return next;
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      next = Math.max(next, this.tool(o, slot, s, e));
    return next;
  }

  /** Picks a unit; returns when one may be free, -1 when one is. */
  private tool(o: number, slot: number, s: number, e: number): number {
    const { model } = this.table;
    const { first, item } = model.unitsOfKind;
    const kind = model.toolKinds.item[slot] ?? 0;
    const was = model.previous.unit[slot] ?? -1;
    let [best, soonest] = [-1, FAR];
    for (let k = first[kind] ?? 0; k < (first[kind + 1] ?? 0); k++) {
      const unit = item[k] ?? 0;
      let isTaken = false;
      for (let other = model.toolKinds.first[o] ?? 0; other < slot; other++)
        if (this.unitsTried[other] === unit) isTaken = true;
      if (isTaken) continue;
      const next = this.clash(unit, s, e, o);
      if (next >= 0) soonest = Math.min(soonest, next);
      else if (best < 0 || unit === was) best = unit;
    }
    this.unitsTried[slot] = best;
    return best >= 0 ? -1 : soonest;
  }

  /** Offers the bays that are free for the work at [s, e); returns `s`, or when it may be tried again. */
  private bays(o: number, hold: number, crew: number, onlyBay: number): number {
    const { table, s, e } = this;
    const { model } = table;
    const car = carFree(table, o, s, e);
    if (car > s) return car;
    const standing = (table.stayCount[hold] ?? 0) > 0 ? (table.stayBay[hold] ?? -1) : -1;
    if (standing >= 0) return this.stay(o, hold, crew, standing);
    const needed = this.neededUntil(o, hold, crew);
    const inside = bayApart(table, o, s, needed);
    const { first, item } = model.holdBays;
    const { previous } = model;
    let soonest = FAR;
    let [best, least] = [-1, Infinity];
    for (let k = first[hold] ?? 0; k < (first[hold + 1] ?? 0); k++) {
      const bay = item[k] ?? 0;
      if ((onlyBay >= 0 && bay !== onlyBay) || (inside >= 0 && bay !== inside)) continue;
      if (model.needsLift[o] === 1 && e > (model.liftUntil[bay] ?? FAR)) continue;
      const next = this.bayClash(bay, s, needed, hold);
      if (next >= 0) {
        if (next < soonest) soonest = next;
        continue;
      }
      let price = (bay === previous.bay[o] ? 0 : 1) + (this.noise > 0 ? this.random() : 0);
      if (this.mayPush) {
        price += bay === previous.bay[o] ? 0 : 6000;
        if (price < least) price += this.pushedInBay(bay, hold, least - price);
      }
      if (price < least) [best, least] = [bay, price];
    }
    if (best >= 0) {
      this.offer(o, crew, best);
      return s;
    }
    if (inside >= 0) return apartUntil(table, o, s);
    return soonest;
  }

  private stay(o: number, hold: number, crew: number, bay: number): number {
    const { table, s, e } = this;
    const { model } = table;
    if (model.needsLift[o] === 1 && e > (model.liftUntil[bay] ?? FAR) && table.wasStarted[hold] !== 1)
      return FAR;
    const from = table.stayFrom[hold] ?? 0;
    const next = this.bayClash(bay, Math.min(from, s), Math.max(table.stayTo[hold] ?? 0, e), hold);
    if (next >= 0) return s < from && next <= from && next > s ? next : FAR;
    this.offer(o, crew, bay);
    return s;
  }

  /** How long the bay is needed when the car comes in for this: for a teardown until its rest is done, at least. */
  private neededUntil(o: number, hold: number, crew: number): number {
    const { model } = this.table;
    const rest = (model.holdSpan[hold] ?? 0) - (model.shortest[o] ?? 0);
    return rest <= 0 ? this.e : advance(model, model.crewCalendar[crew] ?? 0, this.e, rest);
  }

  /** The time from `from` on in which a crew does its work, resting where it does not work. */
  private work(crew: number, from: number): void {
    const { rota, crewCalendar, crewMinutes } = this.table.model;
    const bucket = from >> rota.shift;
    const at = (crewCalendar[crew] ?? 0) * PER_CALENDAR + (bucket < PER_CALENDAR ? bucket : PER_CALENDAR - 1);
    let period = rota.bucket[at] ?? 0;
    while ((rota.to[period] ?? 0) <= from) period++;
    const opens = rota.from[period] ?? 0;
    const start = opens > from ? opens : from;
    let left = (crewMinutes[crew] ?? 0) + start - (rota.to[period] ?? 0);
    while (left > 0) {
      period++;
      left += (rota.from[period] ?? 0) - (rota.to[period] ?? 0);
    }
    this.s = start;
    this.e = (rota.to[period] ?? 0) + left;
  }
}
