import { seeded } from '#libs/chance';
import type { Period, PlanOperation, PlanProblem, PlanRepairOrder, PlanTechnician } from '#libs/plan';

/** Minutes of a day, and from when to when people work, with the break between. */
const DAY = 1440;
const MORNING = { from: 480, to: 720 } as const;
const AFTERNOON = { from: 750, to: 990 } as const;
const WORKED = MORNING.to - MORNING.from + AFTERNOON.to - AFTERNOON.from;
/** Working days in which the work would fit, and weeks that the calendars last. */
const DAYS = 10;
const WEEKS = 6;
const SKILLS = ['brakes', 'electrics', 'engine', 'steering'] as const;
/** How much of everybody's time is asked for, by turns. */
const LOADS = [0.62, 0.68, 0.74] as const;
const TECHNICIANS = 10;
const LIFTS = 8;
const REPAIR_ORDERS = 60;

type Draw = (low: number, high: number) => number;

/** Working minute `worked` of the common shifts as a minute from the origin, a Monday's midnight. */
export function atWorked(worked: number): number {
  const day = Math.floor(worked / WORKED);
  const rest = worked % WORKED;
  const morning = MORNING.to - MORNING.from;
  const inDay = rest < morning ? MORNING.from + rest : AFTERNOON.from + rest - morning;
  return (Math.floor(day / 5) * 7 + (day % 5)) * DAY + inDay;
}

function calendar(early: number): Period[] {
  const days = Array.from({ length: WEEKS * 7 }, (_, day) => day).filter((day) => day % 7 < 5);
  return days.flatMap((day): Period[] => [
    [day * DAY + MORNING.from - early, day * DAY + MORNING.to],
    [day * DAY + AFTERNOON.from, day * DAY + AFTERNOON.to - early],
  ]);
}

function technician(index: number, draw: Draw, random: () => number): PlanTechnician {
  const held = new Set([SKILLS[index % SKILLS.length] ?? '']);
  if (random() < 0.6) held.add(SKILLS[draw(0, SKILLS.length - 1)] ?? '');
  if (random() < 0.3) held.add(SKILLS[draw(0, SKILLS.length - 1)] ?? '');
  return {
    id: `technician ${index + 1}`,
    works: calendar(index % 2 === 0 ? 0 : 30),
    skills: [...held].map((skill) => ({ skill })),
  };
}

const skillOf = (who: PlanTechnician | undefined, draw: Draw): string =>
  who?.skills?.[draw(0, who.skills.length - 1)]?.skill ?? '';

interface RawOrder {
  readonly arrives: number;
  readonly weight: number;
  readonly operations: { minutes: number; skill: string; isOnLift: boolean; tool: boolean; parts: number }[];
  readonly isApart: boolean;
}

/** Work is asked for as people can do it, from whoever is asked for least so far, so that no shop is hopeless. */
function rawOrder(
  technicians: readonly PlanTechnician[],
  asked: number[],
  draw: Draw,
  random: () => number,
): RawOrder {
  const count = draw(2, 5);
  const liftFrom = random() < 0.85 ? draw(0, 1) : count;
  const liftTo = Math.max(liftFrom, count - 1 - (random() < 0.4 ? 1 : 0));
  const arrives = random() < 0.35 ? 0 : draw(0, Math.floor(DAYS * WORKED * 0.7));
  const operations = Array.from({ length: count }, (_, k) => {
    const minutes = Math.exp(random() * 2.2 + 0.1);
    const who = asked.indexOf(Math.min(...asked));
    asked[who] = (asked[who] ?? 0) + minutes;
    return {
      minutes,
      skill: skillOf(technicians[who], draw),
      isOnLift: k >= liftFrom && k <= liftTo,
      tool: random() < 0.12,
      parts: k > 0 && random() < 0.15 ? arrives + draw(60, 2 * WORKED) : 0,
    };
  });
  return {
    arrives,
    weight: [1, 1, 1, 2, 2, 4][draw(0, 5)] ?? 1,
    operations,
    isApart: random() < 0.7,
  };
}

function repairOrder(raw: RawOrder, index: number, scale: number, draw: Draw, random: () => number) {
  const id = `order ${index + 1}`;
  const operations = raw.operations.map(({ minutes, skill, isOnLift, tool, parts }, k): PlanOperation => ({
    id: `${id}, step ${k + 1}`,
    minutes: Math.max(15, Math.round((minutes * scale) / 5) * 5),
    minutesP80: Math.max(15, Math.round((minutes * scale * 1.3) / 5) * 5),
    skills: [skill],
    after: k === 0 ? [] : [`${id}, step ${k}`],
    bay: isOnLift ? { lift: true } : null,
    teardown: isOnLift && raw.isApart ? 'apart' : null,
    tools: tool ? ['press'] : [],
    earliest: parts === 0 ? null : atWorked(parts),
  }));
  const work = operations.reduce((sum, one) => sum + one.minutes, 0);
  const parts = Math.max(raw.arrives, ...raw.operations.map((one) => one.parts));
  const due = Math.max(raw.arrives + work * (1.1 + random() * 1.8), parts + work * 0.6) + draw(0, WORKED);
  return {
    ...{ id, operations, weight: raw.weight },
    arrives: raw.arrives === 0 ? null : atWorked(raw.arrives),
    promised: atWorked(Math.round(due)),
    vehicle: { weightKg: draw(900, 2900), heightMm: draw(1400, 2000) },
  } satisfies PlanRepairOrder;
}

/**
 * Two tight weeks of an invented shop, always the same for a seed: 8 lifts, 10 technicians with four skills, 60 repair
 * orders of 2 to 5 operations one after the other, most of them on a lift and many apart there, some parts late. Times
 * are minutes from a Monday's midnight.
 */
export function twoWeeks(seed: number, size = 1): PlanProblem {
  const random = seeded(seed * 7919 + 13);
  const draw: Draw = (low, high) => low + Math.floor(random() * (high - low + 1));
  const technicians = Array.from({ length: TECHNICIANS * size }, (_, k) => technician(k, draw, random));
  const asked = technicians.map(() => 0);
  const raw = Array.from({ length: REPAIR_ORDERS * size }, () => rawOrder(technicians, asked, draw, random));
  const all = raw.flatMap(({ operations }) => operations).reduce((sum, { minutes }) => sum + minutes, 0);
  const load = LOADS[seed % LOADS.length] ?? LOADS[0];
  const scale = (load * TECHNICIANS * size * DAYS * WORKED) / all;
  return {
    now: 0,
    technicians,
    bays: Array.from({ length: LIFTS * size }, (_, k) => ({
      id: `lift ${k + 1}`,
      lift: { kind: k % 3 === 2 ? 'four-post' : 'two-post', capacityKg: k % 3 === 2 ? 5000 : 3200 },
    })),
    tools: Array.from({ length: 2 * size }, (_, k) => ({ id: `press ${k + 1}`, kind: 'press' })),
    repairOrders: raw.map((one, index) => repairOrder(one, index, scale, draw, random)),
  };
}
