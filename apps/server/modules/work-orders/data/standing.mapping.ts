import { DateTime } from 'luxon';
import { technicianFaults } from '#libs/schedule';
import {
  holdsOf,
  workOrderState,
  type BayUse,
  type Hold,
  type HoldKind,
  type ToolSituation,
  type WorkOrderState,
} from '#libs/workflow';
import type { FloorNow, Occupant } from '../queries/floor-now.query.js';
import type { ItemFacts, WorkOrderFactsRow } from '../queries/work-order-facts.query.js';

/** Where a work order stands and what keeps it from starting: computed from facts, never stored. */
export interface Standing {
  readonly state: WorkOrderState;
  readonly holds: readonly Hold[];
  /** It is not under way or done, and nothing holds it. */
  readonly canStart: boolean;
}

/**
 * Holds that no technician can get round. The other two (bay, technician) are about the floor as a whole: whoever
 * stands at the car sees best whether there is room, and their own skills are asked for by name.
 */
export const BLOCKING: readonly HoldKind[] = ['decision', 'parts', 'tool', 'earlier-work-order', 'sublet'];

const STARTABLE: readonly WorkOrderState[] = ['released', 'claimed', 'paused'];

export function standingOf(row: WorkOrderFactsRow, floor: FloorNow): Standing {
  const state = workOrderState({
    withdrawn: row.withdrawnAt !== null,
    claimed: row.claim !== null,
    clockedSinceClaim: row.isClockedSinceClaim,
    onTheClock: row.isOnTheClock,
    finished: row.finishedAt !== null,
    checked: row.checkedAt !== null,
  });
  const isOver = state === 'finished' || state === 'checked' || state === 'withdrawn';
  const holds = isOver ? [] : holdsNow(row, floor);
  return { state, holds, canStart: holds.length === 0 && STARTABLE.includes(state) };
}

/** Shows instants as the shop's clock reads them, and remembers which instant each text stands for. */
class ShopTimes {
  private readonly instants = new Map<string, string>();

  constructor(private readonly zone: string) {}

  readonly show = (instant: string | null): string | null => {
    if (instant === null) return null;
    const at = DateTime.fromISO(instant, { zone: this.zone });
    const shown = at.toFormat('yyyy-MM-dd HH:mm');
    this.instants.set(shown, at.toUTC().toISO() ?? instant);
    return shown;
  };

  readonly back = (hold: Hold): Hold =>
    hold.until === undefined ? hold : { ...hold, until: this.instants.get(hold.until) ?? hold.until };
}

function holdsNow(row: WorkOrderFactsRow, floor: FloorNow): Hold[] {
  const times = new ShopTimes(floor.timeZone);
  const isOverdue = ({ expectedAt }: ItemFacts): boolean =>
    expectedAt !== null && Date.parse(expectedAt) <= floor.now.getTime();
  const part = (item: ItemFacts) => ({
    ...{ ...item, expectedAt: times.show(item.expectedAt), isOverdue: isOverdue(item) },
  });
  const holds = holdsOf({
    approved: row.latestAnswer === 'approved',
    parts: row.items.filter(({ kind }) => kind === 'part').map(part),
    sublets: row.items
      .filter(({ kind }) => kind === 'sublet')
      .map((item) => ({
        title: item.name,
        returned: item.receivedHundredths >= item.neededHundredths,
        dueAt: times.show(item.expectedAt),
        isOverdue: isOverdue(item),
      })),
    needs: needsOf(row),
    vehicle: { weightKg: row.weightKg, heightMm: row.heightMm },
    bays: floor.bays.map((bay) => inUse(bay, row.vehicleId, floor, times.show)),
    technicians: floor.people
      .filter(({ isTechnician }) => isTechnician)
      .map((person) => ({ ...person, awayUntil: times.show(person.awayUntil) })),
    tools: row.tools.map((tool) => toolUse(tool, row.id, floor, times.show)),
    earlier: row.earlier.map(({ number, title, finished }) => ({ title: `${number} ${title}`, finished })),
    today: floor.today,
  });
  return holds.map(times.back);
}

export function needsOf(row: WorkOrderFactsRow) {
  return {
    lift: row.needsLift,
    liftKind: null,
    bayKinds: row.bayKinds,
    skills: row.skills,
    tools: row.tools.map(({ name }) => name),
  };
}

type Show = (instant: string | null) => string | null;

/** The latest of the ends that are still to come: one that has passed says nothing about when it will be free. */
function freeAt(ends: readonly (string | null)[], now: Date): string | null {
  const ahead = ends.flatMap((end) => (end !== null && new Date(end) > now ? [end] : []));
  return ahead.sort((a, b) => Date.parse(b) - Date.parse(a))[0] ?? null;
}

/** A board asks this for every bay of every work order: a bay that nobody uses is passed on as it is. */
function inUse(
  bay: FloorNow['bays'][number],
  vehicleId: string,
  floor: FloorNow,
  show: Show,
): FloorNow['bays'][number] {
  if (bay.isClosed) return { ...bay, inService: false };
  const isUsed = floor.occupants.some(({ bayId }) => bayId === bay.id);
  return isUsed ? { ...bay, ...bayUse(bay.id, vehicleId, floor, show) } : bay;
}

/** Who is really in the bay goes before who is only planned to be. */
function bayUse(bayId: string, vehicleId: string, floor: FloorNow, show: Show): BayUse {
  const planned = floor.occupants.filter((one) => one.bayId === bayId);
  const there = planned.filter(({ isOnTheClock }) => isOnTheClock);
  const occupants: readonly Occupant[] = there.length > 0 ? there : planned;
  if (occupants.length === 0) return { occupant: 'none', freeAt: null };
  if (occupants.some((one) => one.vehicleId === vehicleId)) return { occupant: 'this-vehicle', freeAt: null };
  const ends = occupants.map(({ endsAt }) => endsAt);
  return { occupant: 'another-vehicle', freeAt: show(freeAt(ends, floor.now)) };
}

function toolUse(
  tool: { readonly id: string; readonly name: string },
  workOrderId: string,
  floor: FloorNow,
  show: Show,
): ToolSituation {
  const users = floor.toolUsers.filter((use) => use.toolId === tool.id && use.workOrderId !== workOrderId);
  const known = floor.tools.find(({ id }) => id === tool.id);
  const units = known === undefined ? 0 : known.units - known.unitsOut;
  const ends = users.flatMap(({ endsAt }) =>
    endsAt !== null && new Date(endsAt) > floor.now ? [endsAt] : [],
  );
  const [first] = ends.sort((a, b) => Date.parse(a) - Date.parse(b));
  return { tool: tool.name, units, unitsInUse: users.length, freeAt: show(first ?? null) };
}

/** What this person lacks for the work today; empty when they may do it. */
export function lackOf(row: WorkOrderFactsRow, floor: FloorNow, staffId: string) {
  const person = floor.people.find(({ id }) => id === staffId);
  return technicianFaults(
    row.skills,
    person ?? { name: 'This person', active: false, skills: [] },
    floor.today,
  );
}
