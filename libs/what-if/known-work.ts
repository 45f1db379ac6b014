import type { PlanOperation, PlanProblem, PlanRepairOrder } from '#libs/plan';
import type { OrderState, Worked } from './order-state.js';
import type { ShopYear } from './shop-year.js';
import type { YearOperation } from './year-description.js';

const DAY = 1440;
const DAYS_SEEN = 120;
/** What is thought to be left, as a part of what was expected, of work that has run over. */
const STILL = 0.2;

/** What a shop knows at a moment, as a problem for its planner: expected hours, and parts once the car has come. */
export function knownWork(shop: ShopYear, states: readonly OrderState[], now: number): PlanProblem {
  const { floor } = shop;
  return {
    now,
    technicians: floor.technicians.map(({ id, skills = [] }) => ({
      id,
      works: shop.together([id]).between(now, now + DAYS_SEEN * DAY),
      skills: skills.map((skill) => ({ skill })),
    })),
    bays: floor.bays.map(({ id, kind, maxHeightMm, lift }) => ({ id, kind, maxHeightMm, lift })),
    tools: floor.tools ?? [],
    repairOrders: states.map((state) => orderAt(shop, state, now)),
  };
}

function orderAt(shop: ShopYear, { order, begun }: OrderState, now: number): PlanRepairOrder {
  return {
    id: order.id,
    promised: order.promised,
    weight: order.weight,
    arrives: order.arrives,
    vehicle: order.vehicle,
    operations: order.operations.map((operation): PlanOperation => {
      const worked = begun.get(operation.id);
      // The actual minutes are nobody's to know yet.
      const { id, minutes, after, bay, skills, crew, helperSkills, tools, teardown, partsAt } = operation;
      return {
        ...{ id, minutes, after, bay, skills, crew, helperSkills, tools, teardown },
        earliest: order.arrives <= now ? partsAt : null,
        started: worked === undefined ? null : placeAt(shop, operation, worked, now),
      };
    }),
  };
}

function placeAt(
  shop: ShopYear,
  { minutes }: YearOperation,
  { start, end, expectedEnd, bay, technicians, tools }: Worked,
  now: number,
): PlanOperation['started'] {
  const calendar = shop.together(technicians);
  const isOver = end <= now;
  const later = Math.max(1, Math.round(minutes * STILL));
  const thought = expectedEnd > now ? expectedEnd : calendar.endOf(calendar.firstFrom(now), later);
  return { start, end: isOver ? end : thought, bay, technicians, tools };
}
