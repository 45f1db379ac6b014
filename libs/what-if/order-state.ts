import type { PlanPlace } from '#libs/plan';
import type { YearOperation, YearOrder } from './year-description.js';

/** An operation that was begun, with the end that it really has; `expectedEnd` is what the shop thinks. */
export interface Worked extends PlanPlace {
  readonly operation: string;
  readonly order: string;
  readonly expectedEnd: number;
}

/** A repair order in the shop or on its way. */
export class OrderState {
  readonly begun = new Map<string, Worked>();

  constructor(readonly order: YearOrder) {}

  /** When the last of its work is over; null while some has not begun. */
  get ready(): number | null {
    return this.begun.size < this.order.operations.length ? null : this.lastEnd;
  }

  get lastEnd(): number {
    let last = 0;
    for (const { end } of this.begun.values()) if (end > last) last = end;
    return last;
  }

  isOver(now: number): boolean {
    const { ready } = this;
    return ready !== null && ready <= now;
  }

  /** Whether its car stands apart in this bay: a teardown there was begun and has work left. */
  isApartIn(bay: string): boolean {
    const isLeft = (word: string): boolean =>
      this.order.operations.some(({ id, teardown }) => teardown === word && !this.begun.has(id));
    return this.order.operations.some(
      ({ id, teardown }) => teardown != null && this.begun.get(id)?.bay === bay && isLeft(teardown),
    );
  }
}

/** When an operation could begin for all that it needs of its own repair order; infinity when not yet known. */
export function readyAt(state: OrderState, operation: YearOperation): number {
  let ready = Math.max(state.order.arrives, operation.partsAt ?? 0);
  for (const id of operation.after ?? []) ready = Math.max(ready, state.begun.get(id)?.end ?? Infinity);
  return ready;
}
