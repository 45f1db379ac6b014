import { minutesOf } from './check-times.js';
import { skilledUntil } from './crew-choice.js';
import type { Period, PlanAssignment, PlanBay, PlanOperation, PlanProblem } from './plan-problem.js';
import { inBoth, joined } from './rota.js';

/** Assignments by operation, that go before those of a plan. */
export type Moves = ReadonlyMap<string, PlanAssignment>;

interface Resource {
  readonly taken: Map<string, PlanAssignment>;
  readonly closed: readonly Period[];
  /** The last move that changed what it does. */
  changed: number;
}

const resource = (closed: readonly Period[] = []): Resource => ({ taken: new Map(), closed, changed: 0 });

/** Where operations of a plan could be later, with the people, the bay and the tools that they have. */
export class LaterPlaces {
  /** What each person and tool does, and when people, tools and bays are closed. */
  private readonly people = new Map<string, Resource>();
  private readonly tools = new Map<string, Resource>();
  private readonly bays: ReadonlyMap<string, PlanBay>;
  private readonly calendars = new Map<string, readonly Period[]>();
  private moves = 0;

  constructor(
    private readonly problem: PlanProblem,
    assignments: readonly PlanAssignment[],
  ) {
    const { technicians, bays, tools = [] } = problem;
    for (const { id, engaged } of technicians) this.people.set(id, resource(engaged));
    for (const { id, outOfService } of tools) this.tools.set(id, resource(outOfService));
    this.bays = new Map(bays.map((bay) => [bay.id, bay]));
    for (const one of assignments)
      for (const { taken } of this.resourcesOf(one)) taken.set(one.operation, one);
  }

  /** Gives an operation another place with the same people and tools. */
  enter(is: PlanAssignment): void {
    this.moves++;
    for (const one of this.resourcesOf(is)) {
      one.taken.set(is.operation, is);
      one.changed = this.moves;
    }
  }

  /** How many moves there were until now. */
  get moved(): number {
    return this.moves;
  }

  /** Whether its people and tools do what they did after so many moves. */
  isAsAfter(moves: number, is: PlanAssignment): boolean {
    return this.resourcesOf(is).every(({ changed }) => changed <= moves);
  }

  /**
   * The last place that ends by `limit` and meets neither a closed time nor other work nor `apart`; null when none is
   * later than the one it has.
   */
  latest(
    operation: PlanOperation,
    is: PlanAssignment,
    limit: number,
    apart: readonly PlanAssignment[],
    moves: Moves,
  ): PlanAssignment | null {
    const most = Math.min(limit, this.validUntil(operation, is));
    if (most <= is.end) return null;
    const busy = this.busyOf(is, apart, most, moves);
    const minutes = minutesOf(operation, is.technicians);
    const calendar = this.calendarOf(is.technicians);
    for (let bound = most; ;) {
      const place = lastPlace(calendar, minutes, is.start, bound);
      if (place === null) return null;
      const { start, end } = place;
      const isFree = (bound = firstMet(busy, start, end)) === Infinity;
      if (isFree) return { ...is, start, end };
    }
  }

  private resourcesOf({ technicians, tools }: PlanAssignment): Resource[] {
    return [
      ...technicians.flatMap((id) => this.people.get(id) ?? []),
      ...tools.flatMap((id) => this.tools.get(id) ?? []),
    ];
  }

  /** Periods after its start and before `until` in which it cannot be. */
  private busyOf(
    is: PlanAssignment,
    apart: readonly PlanAssignment[],
    until: number,
    moves: Moves,
  ): Period[] {
    const busy: Period[] = [];
    const add = (from: number, to: number): void => {
      if (to > is.start && from < until) busy.push([from, to]);
    };
    for (const { start, end } of apart) add(start, end);
    for (const [from, to] of this.bays.get(is.bay ?? '')?.outOfService ?? []) add(from, to);
    for (const { closed, taken } of this.resourcesOf(is)) {
      for (const [from, to] of closed) add(from, to);
      for (const other of taken.values()) {
        if (other.operation === is.operation) continue;
        const { start, end } = moves.get(other.operation) ?? other;
        add(start, end);
      }
    }
    return busy;
  }

  /** When the first certificate of its people runs out that it needs, or the inspection of its lift. */
  private validUntil({ skills, helperSkills, bay }: PlanOperation, is: PlanAssignment): number {
    const lift = this.bays.get(is.bay ?? '')?.lift;
    let until = bay?.lift === true ? (lift?.until ?? Infinity) : Infinity;
    is.technicians.forEach((id, place) => {
      const person = this.problem.technicians.find((one) => one.id === id);
      const wanted = (place === 0 ? skills : helperSkills) ?? [];
      if (person !== undefined) until = Math.min(until, skilledUntil(person, wanted) ?? 0);
    });
    return until;
  }

  private calendarOf(people: readonly string[]): readonly Period[] {
    const key = people.join('\n');
    const known = this.calendars.get(key);
    if (known !== undefined) return known;
    const each = people.map((id) =>
      joined(this.problem.technicians.find((one) => one.id === id)?.works ?? []),
    );
    const shared = each.reduce<readonly Period[]>((both, one) => inBoth(both, one), each[0] ?? []);
    this.calendars.set(key, shared);
    return shared;
  }
}

/** When the first of these begins that meet `[start, end)`; infinite when none does. */
function firstMet(busy: readonly Period[], start: number, end: number): number {
  let first = Infinity;
  for (const [from, to] of busy) if (from < end && start < to && from < first) first = from;
  return first;
}

/** The last place for so many working minutes that starts after `after` and ends by `bound`. */
function lastPlace(
  calendar: readonly Period[],
  minutes: number,
  after: number,
  bound: number,
): { start: number; end: number } | null {
  let [left, end] = [minutes, -1];
  for (let k = periodBefore(calendar, bound); k >= 0; k--) {
    const [from, to] = calendar[k] ?? [0, 0];
    const last = Math.min(to, bound);
    if (last <= after) return null;
    if (end < 0) end = last;
    if (last - from >= left) return last - left > after ? { start: last - left, end } : null;
    left -= last - from;
  }
  return null;
}

/** The last period of a calendar that begins before `bound`; -1 for none. */
function periodBefore(calendar: readonly Period[], bound: number): number {
  let [low, high] = [0, calendar.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((calendar[middle]?.[0] ?? Infinity) < bound) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
