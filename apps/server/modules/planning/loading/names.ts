import type { FloorCalendar } from '../../floor/index.js';
import type { WorkOrderFactsRow } from '../../work-orders/index.js';
import { apartId, heldId } from './begun-work.js';
import type { PlanFacts } from './plan-facts.query.js';
import type { OpenTeardown } from './plannable.js';
import { unitId } from './resources.js';

/** What people read instead of an id. */
export function namesOf(
  rows: readonly WorkOrderFactsRow[],
  facts: Pick<PlanFacts, 'bays' | 'people'>,
  { tools }: FloorCalendar,
  teardowns: readonly OpenTeardown[],
): Map<string, string> {
  const carOf = new Map(rows.map((row) => [row.repairOrderId, row.plate ?? row.vehicleLabel]));
  const unitsOf = new Map<string, number>();
  for (const { id } of tools) unitsOf.set(id, (unitsOf.get(id) ?? 0) + 1);
  return new Map([
    ...rows.map(
      (row) =>
        [row.id, `Work order ${row.number} · ${row.title} · ${row.plate ?? row.vehicleLabel}`] as const,
    ),
    ...rows.map((row) => [row.repairOrderId, `Repair order ${row.repairOrderNumber}`] as const),
    ...teardowns.flatMap(({ word, repairOrderId }) => {
      const car = carOf.get(repairOrderId) ?? 'a car';
      return [
        [apartId(word), `${car}, which stands apart`] as const,
        [heldId(word), `${car}, which waits for work without a date`] as const,
      ];
    }),
    ...facts.people.map(({ id, name }) => [id, name] as const),
    ...facts.bays.map(({ id, name }) => [id, name] as const),
    ...tools.map(({ id, name }) => [id, name] as const),
    ...tools.map(
      ({ id, name, unit }) =>
        [unitId(id, unit), (unitsOf.get(id) ?? 1) > 1 ? `${name} (unit ${unit})` : name] as const,
    ),
  ]);
}

const QUOTED = /"([^"]+)"/g;

/** A sentence of the planner with names where it has ids. */
export const withNames = (words: string, names: ReadonlyMap<string, string>): string =>
  words.replaceAll(QUOTED, (all, id: string) => names.get(id) ?? all);
