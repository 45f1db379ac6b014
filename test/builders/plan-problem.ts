import fc from 'fast-check';
import type {
  Period,
  PlanBay,
  PlanOperation,
  PlanProblem,
  PlanRepairOrder,
  PlanTechnician,
  PlanTool,
} from '#libs/plan';

/** Minutes that a tiny shop's day has; everything lies within. */
export const TINY_DAY = 90;

const SKILLS = ['brakes', 'refrigerant'];

/** Some of the time with this, else with that. */
const sometimes = <T>(weight: number, arbitrary: fc.Arbitrary<T>, otherwise: T): fc.Arbitrary<T> =>
  fc.oneof({ weight, arbitrary }, { weight: 10 - weight, arbitrary: fc.constant(otherwise) });

const closed: fc.Arbitrary<Period[]> = sometimes(
  3,
  fc.tuple(fc.nat(20), fc.integer({ min: 1, max: 10 })).map(([from, long]) => [[from, from + long] as const]),
  [],
);

/** Works all day, with a break or without. */
const works: fc.Arbitrary<Period[]> = fc.oneof(
  fc.constant<Period[]>([[0, TINY_DAY]]),
  fc
    .tuple(fc.nat(5), fc.integer({ min: 6, max: 14 }), fc.integer({ min: 1, max: 8 }))
    .map(([from, until, rest]): Period[] => [
      [from, until],
      [until + rest, TINY_DAY],
    ]),
);

const technician = (index: number): fc.Arbitrary<PlanTechnician> =>
  fc.record({
    id: fc.constant(`t${index}`),
    works,
    skills: fc
      .subarray(SKILLS)
      .chain((held) =>
        fc.tuple(
          ...held.map((skill) =>
            sometimes(2, fc.integer({ min: 5, max: 40 }), null).map((until) => ({ skill, until })),
          ),
        ),
      ),
  });

const bay = (index: number): fc.Arbitrary<PlanBay> =>
  fc.record({
    id: fc.constant(`b${index}`),
    kind: fc.constantFrom('flat', 'lift'),
    maxHeightMm: sometimes(3, fc.constant(2000), null),
    lift: sometimes(
      7,
      fc.record({
        kind: fc.constantFrom('two-post', 'four-post'),
        capacityKg: fc.constantFrom(2000, 3000),
        until: sometimes(1, fc.integer({ min: 5, max: 40 }), null),
      }),
      null,
    ),
    outOfService: closed,
  });

const tool = (index: number): fc.Arbitrary<PlanTool> =>
  fc.record({ id: fc.constant(`k${index}`), kind: fc.constantFrom('press', 'gauge'), outOfService: closed });

interface Names {
  readonly technicians: readonly string[];
  readonly bays: readonly string[];
}

function operation(order: number, index: number, { technicians, bays }: Names): fc.Arbitrary<PlanOperation> {
  const before = Array.from({ length: index }, (_, k) => `o${order}.${k}`);
  return fc
    .record({
      id: fc.constant(`o${order}.${index}`),
      minutes: fc.integer({ min: 1, max: 6 }),
      minutesBy: sometimes(3, fc.record({ [technicians[0] ?? '']: fc.integer({ min: 1, max: 8 }) }), {}),
      after: fc.subarray(before),
      earliest: sometimes(3, fc.nat(12), null),
      bay: sometimes(
        7,
        fc.record({
          lift: fc.boolean(),
          liftKind: sometimes(1, fc.constant('two-post'), null),
          kinds: sometimes<string[]>(1, fc.constant(['lift']), []),
        }),
        null,
      ),
      skills: sometimes(4, fc.subarray(SKILLS), []),
      crew: sometimes<1 | 2>(2, fc.constant(2), 1),
      helperSkills: sometimes<string[]>(1, fc.constant(['brakes']), []),
      tools: sometimes(2, fc.subarray(['press', 'gauge', 'press'], { maxLength: 2 }), []),
      teardown: sometimes(5, fc.constant('engine'), null),
      pin: sometimes(
        1,
        fc.record({
          start: sometimes(5, fc.nat(20), null),
          bay: sometimes(4, fc.constantFrom(...bays), null),
          technicians: sometimes(
            4,
            fc.constantFrom(...technicians).map((id) => [id]),
            null,
          ),
        }),
        null,
      ),
    })
    .map((made) =>
      made.bay === null && made.pin !== null ? { ...made, pin: { ...made.pin, bay: null } } : made,
    );
}

function repairOrder(index: number, names: Names, most: number): fc.Arbitrary<PlanRepairOrder> {
  return fc.integer({ min: 1, max: most }).chain((count) =>
    fc.record({
      id: fc.constant(`r${index}`),
      promised: sometimes(8, fc.integer({ min: 1, max: 25 }), null),
      weight: fc.integer({ min: 1, max: 4 }),
      arrives: sometimes(3, fc.nat(8), null),
      vehicle: fc.record({
        weightKg: sometimes(1, fc.constantFrom(2500, null), 1500),
        heightMm: sometimes(2, fc.constant(2400), null),
      }),
      operations: fc.tuple(...Array.from({ length: count }, (_, k) => operation(index, k, names))),
    }),
  );
}

const count = (most: number): fc.Arbitrary<number> => fc.integer({ min: 1, max: most });

/** Shops with a handful of operations and a bit of everything that a real one has. */
export function tinyShop(orders = 3, operations = 2): fc.Arbitrary<PlanProblem> {
  return fc.tuple(count(3), count(3), fc.nat(3), count(orders)).chain(([people, places, units, cars]) => {
    const each = <T>(many: number, of: (index: number) => fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
      fc.tuple(...Array.from({ length: many }, (_, index) => of(index)));
    const names = {
      technicians: Array.from({ length: people }, (_, k) => `t${k}`),
      bays: Array.from({ length: places }, (_, k) => `b${k}`),
    };
    return fc.record({
      now: fc.nat(3),
      technicians: each(people, technician),
      bays: each(places, bay),
      tools: each(units, tool),
      repairOrders: each(cars, (index) => repairOrder(index, names, operations)),
    });
  });
}

/**
 * The same in the middle of a day: work of some repair orders was started, each by somebody else and in a bay of its own, and
 * people are taken by something else for a while.
 */
export function begunShop(orders = 3, operations = 2): fc.Arbitrary<PlanProblem> {
  const begun = fc.record({
    isBegun: fc.boolean(),
    ago: fc.nat(6),
    long: fc.integer({ min: 1, max: 9 }),
    hasTool: fc.boolean(),
  });
  return fc
    .tuple(tinyShop(orders, operations), fc.array(begun, { minLength: 3, maxLength: 3 }), closed)
    .map(([shop, starts, engaged]) => {
      const now = shop.now + 5;
      const technicians = shop.technicians.map((one, k) => (k === 0 ? { ...one, engaged } : one));
      const repairOrders = shop.repairOrders.map((order, k) => {
        const { isBegun, ago, long, hasTool } = starts[k] ?? {
          isBegun: false,
          ago: 0,
          long: 1,
          hasTool: false,
        };
        const [first, ...rest] = order.operations;
        const [person, place, unit] = [technicians[k], shop.bays[k], shop.tools?.[k]];
        if (!isBegun || first === undefined || person === undefined || place === undefined) return order;
        const start = Math.max(0, now - ago);
        const started = {
          ...{ start, end: start + long, technicians: [person.id] },
          bay: first.bay == null ? null : place.id,
          tools: hasTool && unit !== undefined ? [unit.id] : [],
        };
        return { ...order, operations: [{ ...first, started, pin: null }, ...rest] };
      });
      // Two units of one kind are rare otherwise.
      const isTwice = (starts[0]?.ago ?? 0) % 2 === 1;
      const tools = shop.tools?.map((one) => (isTwice ? { ...one, kind: 'press' } : one));
      return { ...shop, now, technicians, repairOrders, ...(tools === undefined ? {} : { tools }) };
    });
}
