import { crewKinds } from './crew-kinds.js';
import type { CrewKinds } from './crew-kinds.js';
import { closedUntil } from './closed-until.js';
import type { Draft, StateShape } from './draft.js';
import { FAR } from './far.js';
import { bucketsOf } from './rota.js';
import { ownerHold } from './closed-times.js';
import type { PlanModel } from './plan-model.js';

const PER_CALENDAR = bucketsOf();

/** Finds the earliest time, the crew, the bay and the tools for one operation after all that was placed before it. */
export class Fitter {
  static readonly FOUND = 0;
  static readonly NO_BAY = 1;
  static readonly NEVER = 2;
  static readonly HOLD_LATER = 3;

  start = 0;
  end = 0;
  crew = -1;
  bay = -1;
  readonly unit: Int32Array;
  /** The operation for which a hold had to be opened later. */
  barredOperation = -1;
  /**
   * Minutes by which a technician's time is passed over for that of others, as what only they can do may come yet: for
   * each kind of operation (`crewKinds`) one entry a technician.
   */
  readonly spared: Float64Array;
  readonly kinds: CrewKinds;
  private s = 0;
  private e = 0;
  private readonly unitTried: Int32Array;
  private readonly unitBest: Int32Array;
  /** Times before which a hold may not use a bay, found while placing: hold * bays + bay. */
  private readonly barred = new Map<number, number>();
  /** Bays that are closed at times or whose lift may be used for a limited time only. */
  private readonly isSpecial: Uint8Array;
  private readonly wasStarted: Uint8Array;

  constructor(
    private readonly model: PlanModel,
    private readonly shape: StateShape,
    private readonly state: Int32Array,
  ) {
    this.kinds = crewKinds(model);
    this.spared = new Float64Array(this.kinds.count * model.technicians);
    this.unit = new Int32Array(model.toolKinds.item.length);
    this.unitTried = new Int32Array(model.toolKinds.item.length);
    this.unitBest = new Int32Array(model.toolKinds.item.length);
    this.isSpecial = new Uint8Array(model.bays);
    const { first } = model.closed;
    for (let bay = 0; bay < model.bays; bay++) {
      const resource = model.bay0 + bay;
      const isClosed = (first[resource + 1] ?? 0) > (first[resource] ?? 0);
      this.isSpecial[bay] = isClosed || (model.liftUntil[bay] ?? FAR) < FAR ? 1 : 0;
    }
    this.wasStarted = new Uint8Array(model.holds);
    for (const { operation } of model.started) {
      const hold = model.hold[operation] ?? -1;
      if (hold >= 0) this.wasStarted[hold] = 1;
    }
  }

  clear(): void {
    if (this.barred.size > 0) this.barred.clear();
  }

  readyAt(draft: Draft, o: number): number {
    const { first, item } = this.model.before;
    let ready = this.model.release[o] ?? 0;
    const last = first[o + 1] ?? 0;
    for (let k = first[o] ?? 0; k < last; k++) {
      const end = draft.end[item[k] ?? 0] ?? 0;
      if (end > ready) ready = end;
    }
    const from = draft.from[o] ?? 0;
    return from > ready ? from : ready;
  }

  crewFree(crew: number): number {
    const free = this.state[this.model.crewLead[crew] ?? 0] ?? 0;
    const helper = this.model.crewHelper[crew] ?? -1;
    if (helper < 0) return free;
    const other = this.state[helper] ?? 0;
    return other > free ? other : free;
  }

  /** The bay in which the car of a hold stands already, -1 when it must be brought in, -2 when that cannot be now. */
  standing(o: number, hold: number): number {
    const { model, state, shape } = this;
    const several = model.several[hold] ?? -1;
    if (several >= 0) {
      const bay = state[shape.severalBay + several] ?? -1;
      if (bay >= 0) return bay;
    }
    const open = state[shape.carHold + (model.order[o] ?? 0)] ?? -1;
    if (open < 0) return -1;
    const bay = state[shape.severalBay + open] ?? -1;
    if (several >= 0) return -2;
    const last = model.holdBays.first[hold + 1] ?? 0;
    for (let k = model.holdBays.first[hold] ?? 0; k < last; k++)
      if (model.holdBays.item[k] === bay) return bay;
    return -2;
  }

  fit(draft: Draft, o: number): number {
    const { model, state } = this;
    let ready = this.readyAt(draft, o);
    if (ready >= FAR) return Fitter.NEVER;
    const hold = model.hold[o] ?? -1;
    if (hold < 0) return this.take(draft, o, ready, -1);
    const car = state[model.car0 + (model.order[o] ?? 0)] ?? 0;
    if (car > ready) ready = car;
    const bay = this.standing(o, hold);
    if (bay === -2) return Fitter.NO_BAY;
    if (bay >= 0) return this.stay(draft, o, hold, ready, bay);
    return this.bringIn(draft, o, hold, ready);
  }

  /** For a car that stands in its bay already. */
  private stay(draft: Draft, o: number, hold: number, ready: number, bay: number): number {
    const { model, state, shape } = this;
    const found = this.take(draft, o, ready, bay);
    if (found !== Fitter.FOUND || this.isSpecial[bay] !== 1) return found;
    const open = state[shape.carHold + (model.order[o] ?? 0)] ?? -1;
    const owner = open < 0 ? hold : (state[shape.holder + bay] ?? hold);
    if (this.wasStarted[owner] === 1) return found;
    const from = open < 0 ? this.start : (state[shape.severalStart + open] ?? 0);
    const opens = closedUntil(model, model.bay0 + bay, from, this.end, -1, ownerHold(owner));
    const isLate = model.needsLift[o] === 1 && this.end > (model.liftUntil[bay] ?? FAR);
    if (opens < 0 && !isLate) return found;
    this.barredOperation = this.memberOf(owner);
    this.barred.set(owner * model.bays + bay, isLate ? FAR : opens);
    return Fitter.HOLD_LATER;
  }

  private memberOf(hold: number): number {
    return this.model.hold.indexOf(hold);
  }

  /** For a car that has to be brought in: the bays that are like each other at once, the special ones one by one. */
  private bringIn(draft: Draft, o: number, hold: number, ready: number): number {
    const { model, state, shape } = this;
    const { first, item } = model.holdBays;
    const last = first[hold + 1] ?? 0;
    const wish = draft.bayWish[hold] ?? -1;
    const isReserved = model.reserved[o] === 1;
    let plain = FAR;
    let special = 0;
    let isHeld = 0;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const bay = item[k] ?? 0;
      if (wish >= 0 && bay !== wish) continue;
      if ((state[shape.holder + bay] ?? -1) >= 0) isHeld++;
      else if (this.isSpecial[bay] === 1 || isReserved) special++;
      else if ((state[model.bay0 + bay] ?? 0) < plain) plain = state[model.bay0 + bay] ?? 0;
    }
    if (plain === FAR && special === 0) return isHeld > 0 ? Fitter.NO_BAY : Fitter.NEVER;
    let found: number = Fitter.NEVER;
    if (plain < FAR) {
      found = this.take(draft, o, plain > ready ? plain : ready, -1);
      if (found === Fitter.FOUND) this.bay = this.bestBay(hold, wish, this.start);
    }
    if (special > 0) found = this.bringInSpecial(draft, o, hold, ready, found);
    return found === Fitter.NEVER && isHeld > 0 && (model.pinStart[o] ?? -1) < 0 ? Fitter.NO_BAY : found;
  }

  private bringInSpecial(draft: Draft, o: number, hold: number, ready: number, plainFound: number): number {
    const { model, state, shape } = this;
    const { first, item } = model.holdBays;
    const last = first[hold + 1] ?? 0;
    const wish = draft.bayWish[hold] ?? -1;
    const isReserved = model.reserved[o] === 1;
    let found = plainFound;
    if (found === Fitter.FOUND) this.unitBest.set(this.unit);
    let best = {
      start: this.start,
      end: found === Fitter.FOUND ? this.end : FAR,
      crew: this.crew,
      bay: this.bay,
    };
    for (let k = first[hold] ?? 0; k < last; k++) {
      const bay = item[k] ?? 0;
      if ((wish >= 0 && bay !== wish) || (state[shape.holder + bay] ?? -1) >= 0) continue;
      if (this.isSpecial[bay] !== 1 && !isReserved) continue;
      const free = isReserved ? 0 : (state[model.bay0 + bay] ?? 0);
      const from = Math.max(ready, free, this.barred.get(hold * model.bays + bay) ?? 0);
      if (from >= FAR || this.take(draft, o, from, bay) !== Fitter.FOUND) continue;
      if (model.needsLift[o] === 1 && this.end > (model.liftUntil[bay] ?? FAR)) continue;
      if (this.end >= best.end) continue;
      found = Fitter.FOUND;
      best = { start: this.start, end: this.end, crew: this.crew, bay };
      this.unitBest.set(this.unit);
    }
    if (found !== Fitter.FOUND) return found;
    this.unit.set(this.unitBest);
    [this.start, this.end, this.crew, this.bay] = [best.start, best.end, best.crew, best.bay];
    return found;
  }

  /** The free bay that was given back last before `start`: the others stay for cars that come sooner. */
  private bestBay(hold: number, wish: number, start: number): number {
    const { model, state, shape } = this;
    const { first, item } = model.holdBays;
    const last = first[hold + 1] ?? 0;
    let best = -1;
    let latest = -1;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const bay = item[k] ?? 0;
      if ((wish >= 0 && bay !== wish) || this.isSpecial[bay] === 1 || (state[shape.holder + bay] ?? -1) >= 0)
        continue;
      const free = state[model.bay0 + bay] ?? 0;
      if (free <= start && free > latest) {
        latest = free;
        best = bay;
      }
    }
    return best;
  }

  /**
   * The crew that is done first in this bay (-1: any or none) from `ready` on, with what its time is spared; among equals
   * the one free last.
   */
  private take(draft: Draft, o: number, ready: number, bay: number): number {
    const { model } = this;
    const wish = draft.wish[o] ?? -1;
    const pin = model.pinStart[o] ?? -1;
    if (pin >= 0 && ready > pin) return Fitter.NEVER;
    const isReserved = model.reserved[o] === 1;
    const { first } = model.toolKinds;
    const tools = (first[o + 1] ?? 0) - (first[o] ?? 0);
    const isPlain = tools === 0 && !model.hasClosed;
    const last = wish >= 0 ? wish + 1 : (model.crewFirst[o + 1] ?? 0);
    const kind = (this.kinds.of[o] ?? 0) * model.technicians;
    let least = 2 * FAR;
    let end = FAR;
    let start = 0;
    let crew = -1;
    let latest = -1;
    for (let c = wish >= 0 ? wish : (model.crewFirst[o] ?? 0); c < last; c++) {
      const free = isReserved ? 0 : this.crewFree(c);
      let from = free > ready ? free : ready;
      if (pin >= 0) {
        if (from > pin) continue;
        from = pin;
      }
      const spared = this.spared[kind + (model.crewLead[c] ?? 0)] ?? 0;
      if (from + (model.crewMinutes[c] ?? 0) + spared > least) continue;
      if (isPlain) this.work(c, from);
      else this.workClear(o, c, from, bay);
      const own = this.e + spared;
      if (own > least || (own === least && free <= latest) || this.e > (model.crewUntil[c] ?? 0)) continue;
      if (this.e >= FAR || (pin >= 0 && this.s !== pin)) continue;
      least = own;
      end = this.e;
      start = this.s;
      crew = c;
      latest = free;
      if (tools > 0)
        for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) this.unit[k] = this.unitTried[k] ?? 0;
    }
    if (crew < 0) return Fitter.NEVER;
    this.start = start;
    this.end = end;
    this.crew = crew;
    this.bay = bay;
    return Fitter.FOUND;
  }

  /** The time from `from` on in which a crew does its work, resting where it does not work. */
  private work(crew: number, from: number): void {
    const { rota, crewCalendar, crewMinutes } = this.model;
    const minutes = crewMinutes[crew] ?? 0;
    const bucket = from >> rota.shift;
    const at = (crewCalendar[crew] ?? 0) * PER_CALENDAR + (bucket < PER_CALENDAR ? bucket : PER_CALENDAR - 1);
    let period = rota.bucket[at] ?? 0;
    while ((rota.to[period] ?? 0) <= from) period++;
    const opens = rota.from[period] ?? 0;
    const start = opens > from ? opens : from;
    let left = minutes + start - (rota.to[period] ?? 0);
    while (left > 0) {
      period++;
      left += (rota.from[period] ?? 0) - (rota.to[period] ?? 0);
    }
    this.s = start;
    this.e = (rota.to[period] ?? 0) + left;
  }

  /** As `work`, with units of tools and around the times in which anything that it needs is closed. */
  private workClear(o: number, crew: number, from: number, bay: number): void {
    const { model } = this;
    const hold = model.hold[o] ?? -1;
    const helper = model.crewHelper[crew] ?? -1;
    let at = from;
    for (;;) {
      this.work(crew, at);
      const { s, e } = this;
      if (e >= FAR) return;
      let next = this.toolsFree(o, s, e);
      if (model.hasClosed) {
        next = Math.max(next, closedUntil(model, model.crewLead[crew] ?? 0, s, e, o, -1));
        if (helper >= 0) next = Math.max(next, closedUntil(model, helper, s, e, o, -1));
        if (bay >= 0 && this.isSpecial[bay] === 1 && this.wasStarted[hold] !== 1)
          next = Math.max(next, this.bayClosedUntil(o, hold, bay));
      }
      if (next <= s) return;
      at = next;
    }
  }

  /** For the operation at [s, e) that brings a car in: when the bay is open for as long as the hold must last. */
  private bayClosedUntil(o: number, hold: number, bay: number): number {
    const { model, state, shape, s } = this;
    const stands = (state[shape.carHold + (model.order[o] ?? 0)] ?? -1) >= 0;
    if (stands) return -1;
    const end = Math.max(this.e, s + (model.holdSpan[hold] ?? 0));
    return closedUntil(model, model.bay0 + bay, s, end, -1, ownerHold(hold));
  }

  /** Picks units for [s, e); returns `s` when there are enough, else when it may be tried again. */
  private toolsFree(o: number, s: number, e: number): number {
    const { model, state } = this;
    const { first, item } = model.toolKinds;
    let again = s;
    for (let slot = first[o] ?? 0; slot < (first[o + 1] ?? 0); slot++) {
      const kind = item[slot] ?? 0;
      let best = -1;
      let latest = -1;
      let soonest = FAR;
      const was = model.previous.unit[slot] ?? -1;
      for (let k = model.unitsOfKind.first[kind] ?? 0; k < (model.unitsOfKind.first[kind + 1] ?? 0); k++) {
        const unit = model.unitsOfKind.item[k] ?? 0;
        if (this.isTaken(first[o] ?? 0, slot, unit)) continue;
        const free = state[unit] ?? 0;
        const next = free > s ? free : closedUntil(model, unit, s, e, -1, -1);
        if (next > s) soonest = Math.min(soonest, next);
        else if (free > latest || unit === was) {
          best = unit;
          if (unit === was) break;
          latest = free;
        }
      }
      if (best < 0) again = Math.max(again, soonest);
      this.unitTried[slot] = best;
    }
    return again;
  }

  private isTaken(from: number, to: number, unit: number): boolean {
    for (let slot = from; slot < to; slot++) if (this.unitTried[slot] === unit) return true;
    return false;
  }
}
