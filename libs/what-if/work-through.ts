import type { PlanAssignment } from '#libs/plan';
import { readyAt } from './order-state.js';
import type { OrderState, Worked } from './order-state.js';
import type { ShopYear } from './shop-year.js';
import type { YearOperation } from './year-description.js';

/** Until when everybody and everything is taken. */
class Taken {
  private readonly until = new Map<string, number>();

  constructor(private readonly now: number) {}

  of(keys: readonly string[]): number {
    let free = this.now;
    for (const key of keys) free = Math.max(free, this.until.get(key) ?? 0);
    return free;
  }

  keep(keys: readonly string[], until: number): void {
    for (const key of keys) this.until.set(key, Math.max(until, this.until.get(key) ?? 0));
  }
}

const personKey = (id: string): string => `person ${id}`;
const toolKey = (id: string): string => `tool ${id}`;
const bayKey = (id: string): string => `bay ${id}`;
const carKey = (id: string): string => `car ${id}`;

function keysOf(place: Pick<Worked, 'bay' | 'technicians' | 'tools'>, order: string): string[] {
  return [
    ...place.technicians.map(personKey),
    ...place.tools.map(toolKey),
    // One operation at a time is done on a car in a bay; what is done off the car goes on beside it.
    ...(place.bay === null ? [] : [bayKey(place.bay), carKey(order)]),
  ];
}

/**
 * Carries out a plan with the hours that the work really takes, up to the next time at which the shop plans anew.
 * Everybody takes what the plan gives them, in its order, as soon as people, bay, tools and the work before it are there;
 * what cannot begin until then for want of its own parts or earlier work lets others pass. Notes what began.
 */
export function workThrough(
  shop: ShopYear,
  states: readonly OrderState[],
  assignments: readonly PlanAssignment[],
  { now, until }: { now: number; until: number },
): void {
  const taken = new Taken(now);
  const operations = new Map<string, { state: OrderState; operation: YearOperation }>();
  for (const state of states) {
    for (const operation of state.order.operations) operations.set(operation.id, { state, operation });
    for (const worked of state.begun.values())
      if (worked.end > now) taken.keep(keysOf(worked, state.order.id), worked.end);
  }
  const inOrder = [...assignments].sort((a, b) => a.start - b.start || a.end - b.end);
  for (const assignment of inOrder) {
    const known = operations.get(assignment.operation);
    if (known === undefined || known.state.begun.has(assignment.operation)) continue;
    const { state, operation } = known;
    const keys = keysOf(assignment, state.order.id);
    const ready = readyAt(state, operation);
    if (ready >= until) {
      holdBay(state, operation, assignment, taken, until);
      continue;
    }
    const calendar = shop.together(assignment.technicians);
    const start = calendar.firstFrom(Math.max(ready, taken.of(keys)));
    if (start >= until) {
      taken.keep(keys, until);
      continue;
    }
    const { bay, technicians, tools } = assignment;
    const end = calendar.endOf(start, operation.actualMinutes);
    const expectedEnd = calendar.endOf(start, operation.minutes);
    taken.keep(keys, end);
    state.begun.set(operation.id, {
      ...{ operation: operation.id, order: state.order.id },
      ...{ start, end, expectedEnd, bay, technicians, tools },
    });
  }
}

/** A car that is apart stays where it is, whatever it waits for. */
function holdBay(
  state: OrderState,
  operation: YearOperation,
  { bay }: PlanAssignment,
  taken: Taken,
  until: number,
): void {
  if (bay === null || operation.teardown == null || !state.isApartIn(bay)) return;
  taken.keep([bayKey(bay), carKey(state.order.id)], until);
}
