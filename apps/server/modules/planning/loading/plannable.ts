import { DateTime } from 'luxon';
import { bayFaults } from '#libs/schedule';
import type { WorkOrderFactsRow } from '../../work-orders/index.js';
import { isShort, OVERDUE_MS } from './overdue.js';
import type { PlaceFacts, PlanFacts, WorkFacts } from './plan-facts.query.js';

/** A teardown with work that is still open. */
export interface OpenTeardown {
  readonly word: string;
  readonly repairOrderId: string;
  readonly members: readonly WorkFacts[];
  /** Something of it was begun: the car stands apart. */
  readonly isBegun: boolean;
  /** The bay in which it stands apart; null when it does not, or nobody knows. */
  readonly bayId: string | null;
}

export interface Sorted {
  /** Open work that the plan deals with, by id. */
  readonly plannable: ReadonlySet<string>;
  /** The rest of the open work, each with a sentence. */
  readonly why: ReadonlyMap<string, string>;
}

/** Parts and sublets of the work order that are not here yet, by name. */
export const partsOut = ({ items }: WorkOrderFactsRow): string[] =>
  items.filter(isShort).map(({ name }) => name);

/** When the last part or sublet that is still out is expected; null when everything is there. */
export function partsAt({ items }: WorkOrderFactsRow): Date | null {
  const dates = items
    .filter(isShort)
    .flatMap(({ expectedAt }) => (expectedAt === null ? [] : [Date.parse(expectedAt)]));
  return dates.length === 0 ? null : new Date(Math.max(...dates));
}

/**
 * Which open work has a place in the plan. What is on the clock always has. Otherwise it needs the owner's yes, a date
 * for every part that is out, and nobody who took it out; what waits for work that cannot be planned cannot be planned
 * either. A teardown of which something cannot be planned is not begun, because the car would stand apart on the lift
 * for nobody knows how long; that a person took something out is no reason not to begin. Where the car stands apart
 * already and nobody has said in which bay, nothing of it can be given another; and what needs a lift is not done in a
 * bay whose lift may not carry the car, only because it stands there.
 */
export function sortWork(
  rows: readonly WorkOrderFactsRow[],
  facts: Pick<PlanFacts, 'work' | 'leftOut' | 'bays'>,
  teardowns: readonly OpenTeardown[],
  at: { readonly now: Date; readonly timeZone: string },
): Sorted {
  const byId = new Map(facts.work.map((one) => [one.id, one]));
  const leftOut = new Set(facts.leftOut);
  const why = new Map<string, string>();
  for (const row of rows) {
    const known = byId.get(row.id);
    if (known?.openEntry != null) continue;
    const isLeftOut = leftOut.has(row.id) && known?.firstClockAt == null;
    const reason = isLeftOut ? 'Somebody took it out of the plan.' : ownReason(row, at);
    if (reason !== null) why.set(row.id, reason);
  }
  for (const [id, reason] of unsuitedWhereApart(rows, facts, teardowns, at))
    if (byId.get(id)?.openEntry == null && !why.has(id)) why.set(id, reason);
  const isRunning = (id: string): boolean => byId.get(id)?.openEntry != null;
  for (let size = -1; size !== why.size;) {
    size = why.size;
    for (const row of rows) {
      const earlier = row.earlier.find((one) => !one.finished && why.has(one.id));
      if (earlier !== undefined && !why.has(row.id) && !isRunning(row.id))
        why.set(row.id, `It comes after work order ${earlier.number}, which is not planned.`);
    }
    for (const { members, isBegun, bayId } of teardowns) {
      for (const { id, finishedAt } of members)
        if (isBegun && bayId === null && finishedAt === null && !isRunning(id) && !why.has(id))
          why.set(id, 'The car stands apart, and nobody has said in which bay. Give it its place.');
      const stuck = members.find(({ id }) => why.has(id) && !leftOut.has(id));
      if (isBegun || stuck === undefined) continue;
      for (const { id, finishedAt } of members)
        if (finishedAt === null && !why.has(id))
          why.set(id, `The car would stand apart, because work order ${stuck.number} is not planned.`);
    }
  }
  return { plannable: new Set(rows.flatMap(({ id }) => (why.has(id) ? [] : [id]))), why };
}

/** Work on cars that stand apart which needs a lift and must be done before they are whole, where the bay's will not do. */
function unsuitedWhereApart(
  rows: readonly WorkOrderFactsRow[],
  { bays }: Pick<PlanFacts, 'bays'>,
  teardowns: readonly OpenTeardown[],
  { now, timeZone }: { readonly now: Date; readonly timeZone: string },
): [workOrderId: string, why: string][] {
  const today = DateTime.fromJSDate(now, { zone: timeZone }).toFormat('yyyy-MM-dd');
  return teardowns.flatMap(({ repairOrderId, members, bayId }) => {
    const bay = bays.find(({ id }) => id === bayId);
    if (bay === undefined) return [];
    const own = rows.filter((row) => row.repairOrderId === repairOrderId);
    const mustBeDone = new Set(members.map(({ id }) => id));
    for (let size = -1; size !== mustBeDone.size;) {
      size = mustBeDone.size;
      for (const { id, earlier } of own)
        if (mustBeDone.has(id)) for (const one of earlier) mustBeDone.add(one.id);
    }
    return own.flatMap(({ id, needsLift, weightKg }): [string, string][] => {
      if (!needsLift || !mustBeDone.has(id)) return [];
      const needs = { lift: true, liftKind: null };
      const [fault] = bayFaults(
        needs,
        { weightKg },
        { name: bay.name, inService: true, lift: bay.lift },
        today,
      );
      return fault === undefined ? [] : [[id, `The car stands apart in ${bay.name}. ${fault.detail}`]];
    });
  });
}

function ownReason(
  row: WorkOrderFactsRow,
  { now, timeZone }: { readonly now: Date; readonly timeZone: string },
): string | null {
  if (row.latestAnswer !== 'approved') return 'The owner has not agreed to it, or no longer does.';
  for (const item of row.items.filter(isShort)) {
    const what = item.kind === 'part' ? item.name : `${item.name} (at another firm)`;
    if (item.expectedAt === null) return `Nobody knows when this comes: ${what}. Give it a date.`;
    const expected = Date.parse(item.expectedAt);
    if (expected + OVERDUE_MS > now.getTime()) continue;
    const shown = DateTime.fromMillis(expected, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');
    const whom = item.kind === 'part' ? 'supplier' : 'other firm';
    return `Overdue since ${shown}: ${what}. Ask the ${whom} and enter a new date; it is planned again then.`;
  }
  return null;
}

/**
 * The teardowns of the shop that have open work, by their words. A begun one leaves its car apart in the bay of the last of
 * its work that was begun, or where somebody is on the clock on the car now. If another car has been worked on in that bay
 * since, this one was put together and has left: what remains is to be begun anew.
 */
export function openTeardowns(
  work: readonly WorkFacts[],
  wordOf: ReadonlyMap<string, string>,
  placeOf: (workOrderId: string) => PlaceFacts | undefined,
): OpenTeardown[] {
  const groups = new Map<string, WorkFacts[]>();
  const underWay = new Map<string, string>();
  for (const one of work) {
    const word = wordOf.get(one.id);
    if (word !== undefined) groups.set(word, [...(groups.get(word) ?? []), one]);
    const bayId = one.openEntry === null ? undefined : placeOf(one.id)?.bayId;
    if (bayId !== undefined) underWay.set(one.repairOrderId, bayId);
  }
  return [...groups].flatMap(([word, members]) => {
    if (members.every(({ finishedAt }) => finishedAt !== null)) return [];
    const begun = members.filter(({ finishedAt, firstClockAt }) => (finishedAt ?? firstClockAt) !== null);
    const repairOrderId = members[0]?.repairOrderId ?? '';
    const last = lastPlace(begun, placeOf);
    const now = underWay.get(repairOrderId) ?? null;
    const hasLeft =
      now === null && last?.hasLeft === true && begun.every(({ openEntry }) => openEntry === null);
    const isBegun = begun.length > 0 && !hasLeft;
    return [{ word, members, repairOrderId, isBegun, bayId: isBegun ? (now ?? last?.bayId ?? null) : null }];
  });
}

/** The place of the last of the begun work that has one, what is on the clock before all else. */
function lastPlace(
  begun: readonly WorkFacts[],
  placeOf: (workOrderId: string) => PlaceFacts | undefined,
): PlaceFacts | undefined {
  const isOn = ({ openEntry }: WorkFacts): number => (openEntry === null ? 0 : 1);
  const since = ({ openEntry, finishedAt, firstClockAt }: WorkFacts): number =>
    Date.parse(openEntry?.startedAt ?? finishedAt ?? firstClockAt ?? '');
  const [last] = begun
    .filter(({ id }) => placeOf(id) !== undefined)
    .sort((a, b) => isOn(b) - isOn(a) || since(b) - since(a) || (a.id < b.id ? -1 : 1));
  return last && placeOf(last.id);
}
