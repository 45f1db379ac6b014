import { BLOCKED, COSTS, FINISH, GUIDE, HARD, STEP, stateShape } from './draft.js';
import type { Draft, StateShape } from './draft.js';
import { NEAR_RATE } from './chains.js';
import type { CrewKinds } from './crew-kinds.js';
import { FAR } from './far.js';
import { Fitter } from './fitter.js';
import { floorAtStart } from './floor-at-start.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';

/** What one operation without a place, and one that lost its frozen place, cost: more than all lateness. */
export const UNPLACED = 1e14;
export const FROZEN_MOVED = 1e11;

const PLACED = 0;
const WAITS = 1;
const AGAIN = 2;

/** What came of a run: whole, or given up because it costs more than the limit. */
export interface Run {
  /** Positions of the order that were placed: from `first` to before `stop`. */
  first: number;
  stop: number;
  isWhole: boolean;
  /** From here on nothing had changed and the rest was taken over; the number of positions when that did not happen. */
  same: number;
}

/**
 * Turns a draft's choices into times, operation after operation in its order: each starts as early as its predecessors,
 * parts, car, bay, crew and tools allow after what was placed before it. Holds of a torn down car stay open until their
 * last operation; an operation that needs a bay while all that would do are held waits for the next that is given back.
 */
export class Placer {
  readonly run: Run = { first: 0, stop: 0, isWhole: false, same: 0 };
  readonly state: Int32Array;
  readonly cost = new Float64Array(COSTS);
  readonly shape: StateShape;
  hasWaited = false;
  private readonly fitter: Fitter;
  private readonly waiting: number[] = [];
  private readonly isWaiting: Uint8Array;
  readonly atStart: { state: Int32Array; cost: Float64Array };

  constructor(readonly model: PlanModel) {
    this.shape = stateShape(model);
    this.atStart = floorAtStart(model, this.shape, model.near, NEAR_RATE);
    this.state = this.atStart.state.slice();
    this.fitter = new Fitter(model, this.shape, this.state);
    this.isWaiting = new Uint8Array(model.operations);
  }

  /** Enters what was started into a draft that is new. */
  begin(draft: Draft): void {
    for (const { operation, start, end, bay } of this.model.started) {
      draft.start[operation] = start;
      draft.end[operation] = end;
      draft.bay[operation] = bay;
    }
    this.reset();
    draft.rows[0]?.set(this.state);
    draft.rowCosts.set(this.cost);
    draft.rowIsGood.fill(0);
    draft.rowIsGood[0] = 1;
  }

  reset(): void {
    this.state.set(this.atStart.state);
    this.cost.set(this.atStart.cost);
    for (const o of this.waiting) this.isWaiting[o] = 0;
    this.waiting.length = 0;
    this.hasWaited = false;
  }

  /**
   * Places the draft's operations from position `from` on. Gives up when the cost passes `limit`. When the floor is as
   * it was at a kept state after `changed`, the last position that was changed, the rest is taken over.
   */
  place(draft: Draft, from: number, changed: number, limit: number, other: Draft | null): Run {
    const { run, cost } = this;
    const { order } = draft;
    const count = order.length;
    this.fitter.clear();
    run.same = count;
    let at = this.load(draft, from);
    run.first = at;
    while (at < count) {
      if (at % STEP === 0 && at > run.first && this.keep(draft, at, changed, other)) {
        run.same = at;
        return this.end(at, true);
      }
      const o = order[at] ?? 0;
      const done = this.waiting.length > 0 && this.mustWait(o) ? WAITS : this.put(draft, o);
      if (done === AGAIN) {
        at = this.load(draft, this.openedAt(draft, this.fitter.barredOperation));
        run.first = Math.min(run.first, at);
        continue;
      }
      if (done === WAITS) this.wait(o);
      else if (this.waiting.length > 0 && this.retry(draft)) {
        at = this.load(draft, this.openedAt(draft, this.fitter.barredOperation));
        run.first = Math.min(run.first, at);
        continue;
      }
      at++;
      if ((cost[HARD] ?? 0) + (cost[GUIDE] ?? 0) > limit) return this.end(at, false);
    }
    for (const o of this.waiting) this.leaveOut(draft, o);
    draft.cost.set(cost);
    return this.end(count, true);
  }

  private end(stop: number, isWhole: boolean): Run {
    this.run.stop = stop;
    this.run.isWhole = isWhole;
    return this.run;
  }

  /** Sets the floor back to the last kept state at or before a position; returns where that is. */
  private load(draft: Draft, from: number): number {
    let row = Math.floor(from / STEP);
    while (row > 0 && draft.rowIsGood[row] !== 1) row--;
    this.state.set(draft.rows[row] ?? this.atStart.state);
    for (let k = 0; k < COSTS; k++) this.cost[k] = draft.rowCosts[row * COSTS + k] ?? 0;
    for (const o of this.waiting) this.isWaiting[o] = 0;
    this.waiting.length = 0;
    this.hasWaited = false;
    return row * STEP;
  }

  /** Keeps the state before a position. True when it is what it was, so that the rest need not be placed again. */
  private keep(draft: Draft, at: number, changed: number, other: Draft | null): boolean {
    const row = at / STEP;
    const { size } = this.shape;
    const { rowIsGood, rowCosts } = draft;
    const kept = draft.rows[row] ?? this.state;
    if (this.waiting.length > 0) {
      rowIsGood[row] = 0;
      return false;
    }
    if (other !== null && at > changed && rowIsGood[row] === 1) {
      const { state } = this;
      let k = 0;
      while (k < size && kept[k] === state[k]) k++;
      if (k === size && this.endsAreSame(draft, other, at)) {
        this.takeOver(draft, row);
        return true;
      }
    }
    kept.set(this.state);
    for (let k = 0; k < COSTS; k++) rowCosts[row * COSTS + k] = this.cost[k] ?? 0;
    rowIsGood[row] = 1;
    return false;
  }

  /** Whether operations before a position end as in the other draft, as far as what comes later depends on them. */
  private endsAreSame(draft: Draft, other: Draft, at: number): boolean {
    const { first, item } = this.model.after;
    for (let k = this.run.first; k < at; k++) {
      const o = draft.order[k] ?? 0;
      if (draft.end[o] === other.end[o]) continue;
      const last = first[o + 1] ?? 0;
      for (let next = first[o] ?? 0; next < last; next++)
        if ((draft.position[item[next] ?? 0] ?? 0) >= at) return false;
    }
    return true;
  }

  /** The costs of the kept states from a row on, moved by what came cheaper or dearer before it. */
  private takeOver(draft: Draft, row: number): void {
    const { rowCosts } = draft;
    for (let k = 0; k < COSTS; k++) {
      const more = (this.cost[k] ?? 0) - (rowCosts[row * COSTS + k] ?? 0);
      if (more === 0) continue;
      for (let at = row * COSTS + k; at < rowCosts.length; at += COSTS)
        rowCosts[at] = (rowCosts[at] ?? 0) + more;
      draft.cost[k] = (draft.cost[k] ?? 0) + more;
    }
  }

  private mustWait(o: number): boolean {
    const { first, item } = this.model.before;
    const end = first[o + 1] ?? 0;
    for (let k = first[o] ?? 0; k < end; k++) if (this.isWaiting[item[k] ?? 0] === 1) return true;
    return false;
  }

  private wait(o: number): void {
    this.waiting.push(o);
    this.isWaiting[o] = 1;
    this.hasWaited = true;
  }

  /** Places what waits and can go now. True when a hold must be opened later than it was. */
  private retry(draft: Draft): boolean {
    const { waiting } = this;
    for (let k = 0; k < waiting.length; k++) {
      const o = waiting[k] ?? 0;
      if (this.mustWait(o)) continue;
      const done = this.put(draft, o);
      if (done === AGAIN) return true;
      if (done === WAITS) continue;
      waiting.splice(k, 1);
      this.isWaiting[o] = 0;
      k = -1;
    }
    return false;
  }

  private openedAt(draft: Draft, o: number): number {
    const hold = this.model.hold[o] ?? -1;
    for (let at = 0; at < draft.order.length; at++)
      if (this.model.hold[draft.order[at] ?? 0] === hold) return at;
    return 0;
  }

  readyAt(draft: Draft, o: number): number {
    return this.fitter.readyAt(draft, o);
  }

  crewFree(crew: number): number {
    return this.fitter.crewFree(crew);
  }

  /** Minutes by which each technician's time is spared where somebody else will do, for each kind of operation. */
  get spared(): Float64Array {
    return this.fitter.spared;
  }

  get kinds(): CrewKinds {
    return this.fitter.kinds;
  }

  /** 0 when an operation can be done in the bay where its car stands apart already, else `FAR`. */
  nested(o: number, hold: number): number {
    return this.fitter.standing(o, hold) >= 0 ? 0 : FAR;
  }

  /** Forgets from when on bays that close can be used. */
  clear(): void {
    this.fitter.clear();
  }

  /** Places one operation; `WAITS` when no bay can be had yet, `AGAIN` when its hold has to begin later. */
  put(draft: Draft, o: number): number {
    const { model, fitter, state, shape } = this;
    const found = fitter.fit(draft, o);
    if (found === Fitter.NO_BAY) return WAITS;
    if (found === Fitter.NEVER) {
      this.leaveOut(draft, o);
      return PLACED;
    }
    if (found === Fitter.HOLD_LATER) return AGAIN;
    const { start, end, crew, bay } = fitter;
    draft.start[o] = start;
    draft.end[o] = end;
    draft.crew[o] = crew;
    draft.bay[o] = bay;
    if (model.reserved[o] !== 1) {
      state[model.crewLead[crew] ?? 0] = end;
      const helper = model.crewHelper[crew] ?? -1;
      if (helper >= 0) state[helper] = end;
    }
    const tools = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < tools; slot++) {
      const unit = fitter.unit[slot] ?? 0;
      draft.unit[slot] = unit;
      state[unit] = end;
    }
    if (bay >= 0) this.occupy(o, bay, start, end);
    this.charge(o, start, end, crew, bay);
    const order = model.order[o] ?? 0;
    const ready = end + (model.tail[o] ?? 0);
    const was = state[shape.ready + order] ?? 0;
    if (ready > was) this.delay(order, was, ready);
    return PLACED;
  }

  private occupy(o: number, bay: number, start: number, end: number): void {
    const { model, state, shape } = this;
    const { severalBay, severalLeft, severalStart, severalWork, holder, carHold } = shape;
    const order = model.order[o] ?? 0;
    const hold = model.hold[o] ?? 0;
    const several = model.several[hold] ?? -1;
    state[model.car0 + order] = end;
    if (several < 0) {
      const open = state[carHold + order] ?? -1;
      if (open >= 0) state[severalWork + open] = (state[severalWork + open] ?? 0) + end - start;
      else if (model.reserved[o] !== 1) state[model.bay0 + bay] = end;
      return;
    }
    if ((state[severalBay + several] ?? -1) < 0) {
      state[severalBay + several] = bay;
      state[severalStart + several] = start;
      state[holder + bay] = hold;
      state[carHold + order] = several;
    }
    state[severalWork + several] = (state[severalWork + several] ?? 0) + end - start;
    const left = (state[severalLeft + several] ?? 0) - 1;
    state[severalLeft + several] = left;
    if (left > 0) return;
    state[holder + bay] = -1;
    state[carHold + order] = -1;
    state[model.bay0 + bay] = end;
    const blocked = end - (state[severalStart + several] ?? 0) - (state[severalWork + several] ?? 0);
    this.cost[BLOCKED] = (this.cost[BLOCKED] ?? 0) + blocked;
  }

  /** What it costs that an operation is not where the previous plan had it. */
  private charge(o: number, start: number, end: number, crew: number, bay: number): void {
    const { previous, crewLead, crewHelper } = this.model;
    const was = previous.start[o] ?? -1;
    if (was < 0) return;
    let cost = 0;
    if (start !== was)
      cost += (previous.moved[o] ?? 0) + Math.abs(start - was) * (previous.minuteMoved[o] ?? 0);
    if (crewLead[crew] !== previous.lead[o] || crewHelper[crew] !== previous.helper[o])
      cost += previous.technician[o] ?? 0;
    if (bay !== previous.bay[o]) cost += previous.bayChanged[o] ?? 0;
    const isOff =
      start !== was ||
      crewLead[crew] !== previous.lead[o] ||
      crewHelper[crew] !== previous.helper[o] ||
      bay !== previous.bay[o];
    if (isOff && previous.isFrozen[o] === 1) cost += FROZEN_MOVED;
    if (cost !== 0) this.cost[HARD] = (this.cost[HARD] ?? 0) + cost;
  }

  /** The repair order cannot be ready before `ready` any more. */
  private delay(order: number, was: number, ready: number): void {
    const { model, cost } = this;
    this.state[this.shape.ready + order] = ready;
    cost[FINISH] = (cost[FINISH] ?? 0) + ready - was;
    const due = model.due[order] ?? 0;
    const early = due - model.near;
    if (ready <= early) return;
    const rate = (model.weight[order] ?? 0) * PER_MINUTE;
    cost[GUIDE] = (cost[GUIDE] ?? 0) + rate * NEAR_RATE * (ready - Math.max(was, early));
    if (ready > due) cost[HARD] = (cost[HARD] ?? 0) + rate * (ready - Math.max(was, due));
  }

  leaveOut(draft: Draft, o: number): void {
    draft.start[o] = -1;
    draft.end[o] = FAR;
    draft.crew[o] = -1;
    draft.bay[o] = -1;
    this.cost[HARD] = (this.cost[HARD] ?? 0) + UNPLACED;
    if (this.model.previous.isFrozen[o] === 1) this.cost[HARD] = (this.cost[HARD] ?? 0) + FROZEN_MOVED;
    const several = this.model.several[this.model.hold[o] ?? -1] ?? -1;
    if (several >= 0) this.leaveTeardown(o, several);
  }

  /** One operation of a teardown less: when it was the last that was missing, the bay is given back. */
  private leaveTeardown(o: number, several: number): void {
    const { state, shape, model } = this;
    const left = (state[shape.severalLeft + several] ?? 0) - 1;
    state[shape.severalLeft + several] = left;
    const bay = state[shape.severalBay + several] ?? -1;
    if (left > 0 || bay < 0) return;
    const order = model.order[o] ?? 0;
    state[shape.holder + bay] = -1;
    state[shape.carHold + order] = -1;
    const end = state[model.car0 + order] ?? 0;
    state[model.bay0 + bay] = end;
    const blocked =
      end - (state[shape.severalStart + several] ?? 0) - (state[shape.severalWork + several] ?? 0);
    this.cost[BLOCKED] = (this.cost[BLOCKED] ?? 0) + blocked;
  }
}
