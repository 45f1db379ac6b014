import fc from 'fast-check';
import type { PlanAssignment } from '#libs/plan';
import { horizonFrom } from '#server/modules/planning/loading/minutes';
import { previousOf } from '#server/modules/planning/loading/stored-places';
import { placesOf, type ShopPlan, type StoredPlace } from '#server/modules/planning/index';

const NOW = new Date('2026-03-11T13:00:00Z');
const UNTIL = new Date('2026-03-26T00:00:00Z');
const MINUTE_MS = 60_000;
const horizon = horizonFrom(NOW, NOW, UNTIL, 'America/New_York');

/** A piece of work of a car, in milliseconds; the next one of the car comes later. */
interface Piece {
  readonly gap: number;
  readonly long: number;
  /** It and the next are one teardown. */
  readonly goesOn: boolean;
}

const instant = fc.integer({ min: 0, max: 90 * MINUTE_MS });
const piece: fc.Arbitrary<Piece> = fc.record({
  gap: fc.oneof(fc.constant(0), fc.constant(30 * MINUTE_MS), instant),
  long: fc.oneof(fc.constant(45 * MINUTE_MS), instant).map((ms) => Math.max(ms, 2 * MINUTE_MS)),
  goesOn: fc.boolean(),
});
/** Each car has a bay and a technician of its own, so that whatever is stored here could be. */
const cars = fc.array(fc.array(piece, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 3 });

function shopOf(list: readonly (readonly Piece[])[]): { shop: ShopPlan; stored: Map<string, StoredPlace> } {
  const stored = new Map<string, StoredPlace>();
  const repairOrders = list.map((pieces, car) => {
    let at = NOW.getTime();
    let word: string | null = null;
    const operations = pieces.map(({ gap, long, goesOn }, k) => {
      const id = `car ${car} work ${k}`;
      const isLast = k === pieces.length - 1;
      const follows = word !== null;
      word = follows ? word : goesOn && !isLast ? id : null;
      const teardown = word;
      const [startsAt, endsAt] = [new Date(at + gap), new Date(at + gap + long)];
      const nextGap = pieces[k + 1]?.gap ?? 0;
      const isApart = goesOn && !isLast && nextGap > 0;
      stored.set(id, {
        ...{ assignmentId: id, version: 1, workOrderId: id, bayId: `bay ${car}`, technicianId: `t ${car}` },
        ...{ startsAt, endsAt, bayUntil: isApart ? new Date(endsAt.getTime() + nextGap) : null },
        ...{ tools: [{ toolId: `tool ${car}`, unit: 2 }], isPinned: false, planRunId: 'run', madeBy: null },
        ...{ start: horizon.minuteOf(startsAt), end: horizon.minuteOf(endsAt) },
      });
      at = endsAt.getTime();
      if (!goesOn) word = null;
      return { id, minutes: 30, bay: {}, tools: [`tool ${car}`], teardown };
    });
    return { id: `car ${car}`, operations };
  });
  const operations = repairOrders.flatMap((order) => order.operations);
  const ids = operations.map(({ id }) => [id, {}] as const);
  const shop = {
    problem: { now: horizon.now, technicians: [], bays: [], repairOrders },
    ...{ horizon, assignmentOf: stored, finished: [], begunAt: new Map() },
    workOrders: new Map(ids),
  } as unknown as ShopPlan;
  return {
    shop: { ...shop, problem: { ...shop.problem, previous: previousOf(operations, stored) } },
    stored,
  };
}

const rowOf = ({ bayId, technicianId, startsAt, endsAt, bayUntil, tools }: StoredPlace | PlacesRow) =>
  JSON.stringify({ bayId, technicianId, startsAt, endsAt, bayUntil, tools });
type PlacesRow = ReturnType<typeof placesOf>[number];

describe('from the plan back to what is stored', () => {
  it('gives what did not change exactly as it is stored, seconds and kept bays included', () => {
    fc.assert(
      fc.property(cars, (list) => {
        const { shop, stored } = shopOf(list);
        const back = placesOf(shop, shop.problem.previous ?? []);
        expect(back.map(({ operation }) => operation).sort()).toEqual([...stored.keys()].sort());
        for (const row of back) {
          const was = stored.get(row.operation);
          expect(rowOf(row)).toBe(was && rowOf(was));
        }
      }),
      { numRuns: 500 },
    );
  });

  it('lets nothing that is moved run into what stays, down to the millisecond', () => {
    fc.assert(
      fc.property(cars, fc.integer({ min: 1, max: 20 }), (list, minutes) => {
        const { shop } = shopOf(list);
        const previous = shop.problem.previous ?? [];
        // Before each piece that stays, one that now ends in the minute in which it begins.
        for (const stays of previous) {
          const others = previous.filter(({ operation }) => operation !== stays.operation);
          const [moved] = others;
          if (moved === undefined) return;
          const is: PlanAssignment = {
            ...moved,
            bay: stays.bay,
            start: stays.start - minutes,
            end: stays.start,
          };
          const rows = placesOf(shop, [stays, is]);
          const of = (id: string) => rows.find(({ operation }) => operation === id);
          const [first, second] = [of(moved.operation), of(stays.operation)];
          expect(first && second && first.endsAt <= second.startsAt && first.startsAt < first.endsAt).toBe(
            true,
          );
        }
      }),
      { numRuns: 500 },
    );
  });

  it('keeps the bay of finished work up to what comes next, as the next moves, and frees it when nothing does', () => {
    const { shop, stored } = shopOf([
      [
        { gap: 0, long: 60 * MINUTE_MS, goesOn: true },
        { gap: 60 * MINUTE_MS, long: 60 * MINUTE_MS, goesOn: false },
      ],
    ]);
    const [first, second] = shop.problem.repairOrders[0]?.operations ?? [];
    if (first === undefined || second === undefined) throw new Error('two were made');
    const done = { workOrderId: first.id, repairOrderId: 'car 0', teardown: first.teardown ?? null };
    const rest = { ...shop.problem.repairOrders[0], id: 'car 0', operations: [second] };
    const after: ShopPlan = {
      ...shop,
      problem: { ...shop.problem, repairOrders: [rest] },
      workOrders: new Map([...shop.workOrders].filter(([id]) => id === second.id)),
      finished: [done],
    };
    const was = shop.problem.previous?.find(({ operation }) => operation === second.id);
    if (was === undefined) throw new Error('it was planned');
    const until = (assignments: PlanAssignment[], of: ShopPlan = after) =>
      placesOf(of, assignments).find(({ operation }) => operation === first.id)?.bayUntil ?? null;
    expect(until([was])).toEqual(stored.get(first.id)?.bayUntil);
    const later = { ...was, start: was.start + 600, end: was.end + 600 };
    expect(until([later])).toEqual(horizon.instantOf(later.start));
    expect(until([])).toBeNull();
    expect(until([{ ...later, bay: 'another' }])).toBeNull();
    expect(until([was], { ...after, finished: [{ ...done, teardown: null }] })).toBeNull();
  });
});
