import type { Period, PlanOperation, PlanProblem, PlanRepairOrder } from '#libs/plan';

/** How large a generated shop is and how much it has to do. */
export interface ShopSize {
  readonly orders: number;
  readonly technicians: number;
  readonly lifts: number;
  readonly tools: number;
  /** Working days; a day has 32 quarters of an hour. */
  readonly days: number;
  /** The work in parts of three quarters of all working time. */
  readonly load: number;
  /** Shifts, breaks and weekends in minutes; without them a quarter of an hour is a minute and nobody ever rests. */
  readonly hasShifts: boolean;
}

/** Sixty repair orders for two weeks: more work than lets everybody keep every promise. */
export const TIGHT_WEEKS: ShopSize = {
  ...{ orders: 60, technicians: 10, lifts: 8, tools: 3, days: 10 },
  ...{ load: 1, hasShifts: true },
};
/** Ten times that. */
export const LARGE_SHOP: ShopSize = { ...TIGHT_WEEKS, orders: 600, technicians: 100, lifts: 80, tools: 30 };

/** 7 to 10 repair orders, 25 to 36 operations as a rule: small enough for a proof. */
export const smallShop = (seed: number): ShopSize => {
  const [orders = 7, technicians = 3] =
    [
      [7, 3],
      [9, 3],
      [10, 4],
    ][seed % 3] ?? [];
  return { orders, technicians, lifts: 2, tools: 1, days: 2, load: 1, hasShifts: false };
};

const QUARTERS = 32;
const QUARTER = 15;
const SKILLS = 4;
const DAY = 1440;
const WEEKS = 8;
/** Of six repair orders three are usual, two weigh double, one four times as much. */
const WEIGHTS = [1, 1, 1, 2, 2, 4];

/** Numbers from 0 to below 1 (xorshift of G. Marsaglia 2003), the first of which are passed over. */
function drawing(seed: number): () => number {
  let state = (seed * 7919 + 13) >>> 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 4_294_967_296;
  };
  for (let k = 0; k < 20; k++) next();
  return next;
}

interface RawOperation {
  quarters: number;
  readonly skill: number;
  readonly isOnLift: boolean;
  readonly tool: number;
  readonly parts: number;
}

interface RawOrder {
  readonly operations: readonly RawOperation[];
  readonly arrives: number;
  readonly weight: number;
}

function drawOrder({ days, tools }: ShopSize, random: () => number): RawOrder {
  const whole = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const count = whole(2, 5);
  const liftFrom = random() < 0.85 ? whole(0, 1) : 99;
  const liftTo = Math.max(liftFrom, count - 1 - (random() < 0.4 ? 1 : 0));
  const arrives = random() < 0.35 ? 0 : whole(0, Math.floor(days * QUARTERS * 0.7));
  const operations: RawOperation[] = [];
  for (let k = 0; k < count; k++) {
    const quarters = Math.max(1, Math.round(Math.exp(random() * 2.2 + 0.1)));
    operations.push({
      quarters,
      skill: whole(0, SKILLS - 1),
      isOnLift: k >= liftFrom && k <= liftTo,
      tool: random() < 0.12 ? whole(0, tools - 1) : -1,
      parts: arrives + (k > 0 && random() < 0.15 ? whole(4, QUARTERS * 2) : 0),
    });
  }
  return { operations, arrives, weight: WEIGHTS[whole(0, 5)] ?? 1 };
}

const sumOf = (operations: readonly RawOperation[]): number =>
  operations.reduce((sum, { quarters }) => sum + quarters, 0);

/** A generated shop, always the same for a seed: technicians with one to three of four skills, lifts that are alike, single tools. */
export function shopLike(size: ShopSize, seed: number): PlanProblem {
  const random = drawing(seed);
  const { technicians, orders, days, load } = size;
  const skillsOf = Array.from({ length: technicians }, (_, k) => {
    const second = random() < 0.6 ? [Math.floor(random() * SKILLS)] : [];
    const third = random() < 0.3 ? [Math.floor(random() * SKILLS)] : [];
    return new Set([k % SKILLS, ...second, ...third]);
  });
  const raw = Array.from({ length: orders }, () => drawOrder(size, random));
  // What nobody learned the first does.
  for (let skill = 0; skill < SKILLS; skill++)
    if (!skillsOf.some((own) => own.has(skill))) skillsOf[0]?.add(skill);
  const scale =
    (load * technicians * days * QUARTERS * 0.75) /
    raw.reduce((sum, { operations }) => sum + sumOf(operations), 0);
  const time = size.hasShifts ? minuteOf : (quarter: number): number => quarter;
  const unit = size.hasShifts ? QUARTER : 1;
  const repairOrders = raw.map(({ operations, arrives, weight }, k): PlanRepairOrder => {
    for (const one of operations) one.quarters = Math.max(1, Math.round(one.quarters * scale));
    const work = sumOf(operations);
    const ready = Math.max(arrives, ...operations.map(({ parts }) => parts));
    const slack = work * (1.2 + random() * 1.8);
    const due = Math.round(
      Math.max(arrives + slack, ready + work * 0.6) + Math.floor(random() * (QUARTERS + 1)),
    );
    return {
      id: `r${k}`,
      ...{ promised: time(due), weight, arrives: time(arrives), vehicle: { weightKg: 1500 } },
      operations: operations.map((one, at) => operationOf(one, `r${k}`, at, { unit, time, arrives })),
    };
  });
  return {
    now: 0,
    technicians: skillsOf.map((skills, k) => ({
      id: `t${k}`,
      works: size.hasShifts ? shiftsOf(k) : [[0, 1_000_000] as const],
      skills: [...skills].map((skill) => ({ skill: `s${skill}` })),
    })),
    bays: Array.from({ length: size.lifts }, (_, k) => ({
      id: `b${k}`,
      lift: { kind: 'two-post', capacityKg: 3000 },
    })),
    tools: Array.from({ length: size.tools }, (_, k) => ({ id: `k${k}`, kind: `k${k}` })),
    repairOrders,
  };
}

interface Terms {
  readonly unit: number;
  readonly time: (quarter: number) => number;
  readonly arrives: number;
}

/** One follows the other; what is on the lift is one teardown. */
const operationOf = (
  { quarters, skill, isOnLift, tool, parts }: RawOperation,
  order: string,
  at: number,
  { unit, time, arrives }: Terms,
): PlanOperation => ({
  id: `${order}.${at}`,
  minutes: quarters * unit,
  skills: [`s${skill}`],
  ...(at > 0 ? { after: [`${order}.${at - 1}`] } : {}),
  ...(parts > arrives ? { earliest: time(parts) } : {}),
  ...(isOnLift ? { bay: { lift: true }, teardown: 'apart' } : {}),
  ...(tool >= 0 ? { tools: [`k${tool}`] } : {}),
});

/** The minute of a quarter of an hour of working time: five days a week from eight o'clock, noon left out of account. */
function minuteOf(quarter: number): number {
  const day = Math.floor(quarter / QUARTERS);
  return (Math.floor(day / 5) * 7 + (day % 5)) * DAY + 8 * 60 + (quarter % QUARTERS) * QUARTER;
}

/** Five days a week, eight hours and a break of one after four; every second one begins half an hour sooner. */
const shiftsOf = (technician: number): Period[] =>
  Array.from({ length: WEEKS * 5 }, (_, k) => {
    const begins = (Math.floor(k / 5) * 7 + (k % 5)) * DAY + (technician % 2 === 0 ? 480 : 450);
    return [
      [begins, begins + 240],
      [begins + 300, begins + 540],
    ] as const;
  }).flat();
