import { joined } from './calendar.js';
import type { Replay } from './replay.js';

/** What a year came to. Minutes of bays and technicians are within opening hours. */
export interface ReplayMeasures {
  /** Minutes after the promised times, each times its weight; what is still open counts up to the end. */
  readonly latenessMinutes: number;
  /** Promised times within the year, and those of them that were kept. */
  readonly promised: number;
  readonly kept: number;
  readonly arrived: number;
  readonly ready: number;
  readonly openAtEnd: number;
  /** Repair orders that nobody here can do. */
  readonly turnedAway: number;
  readonly readyPerWeek: number;
  /** From coming to being ready, on average over what got ready; null when nothing did. */
  readonly meanStayMinutes: number | null;
  /** Cars in the shop or waiting before it, on average over the year. */
  readonly meanCarsHere: number;
  readonly bays: readonly BayMinutes[];
  readonly technicians: readonly { readonly id: string; readonly used: number; readonly available: number }[];
}

/** `work + blocked + idle` are the shop's opening minutes. */
export interface BayMinutes {
  readonly id: string;
  readonly isLift: boolean;
  readonly work: number;
  /** A car stands in it and nobody works on it there. */
  readonly blocked: number;
  readonly idle: number;
}

export function measureReplay(replay: Replay): ReplayMeasures {
  const { shop, outcomes } = replay;
  const here = outcomes.filter(({ turnedAway }) => turnedAway === null);
  const ready = here.flatMap(({ order, ready: at }) => (at === null ? [] : [at - order.arrives]));
  const due = here.filter(({ order }) => order.promised <= shop.end);
  return {
    latenessMinutes: here.reduce(
      (sum, { order, ready: at }) => sum + order.weight * Math.max(0, (at ?? shop.end) - order.promised),
      0,
    ),
    promised: due.length,
    kept: due.filter(({ order, ready: at }) => at !== null && at <= order.promised).length,
    arrived: outcomes.length,
    ready: ready.length,
    openAtEnd: here.length - ready.length,
    turnedAway: outcomes.length - here.length,
    readyPerWeek: (ready.length * 10_080) / shop.end,
    meanStayMinutes: ready.length === 0 ? null : ready.reduce((sum, stay) => sum + stay, 0) / ready.length,
    meanCarsHere: meanCarsHere(replay),
    bays: bayMinutes(replay),
    technicians: technicianMinutes(replay),
  };
}

/** The cars that are here, counted at every coming and going. */
function meanCarsHere({ shop, outcomes }: Replay): number {
  const steps = outcomes
    .flatMap(({ order, ready, turnedAway }) => [
      { at: order.arrives, by: 1 },
      { at: ready ?? turnedAway ?? shop.end, by: -1 },
    ])
    .sort((a, b) => a.at - b.at);
  let [cars, since, sum] = [0, 0, 0];
  for (const { at, by } of steps) {
    sum += cars * (at - since);
    since = at;
    cars += by;
  }
  return sum / shop.end;
}

function bayMinutes({ shop, outcomes, worked }: Replay): BayMinutes[] {
  const open = shop.opening.minutesBefore(shop.end);
  const teardownOf = new Map(
    outcomes.flatMap(({ order }) => order.operations.map(({ id, teardown }) => [id, teardown ?? null])),
  );
  return shop.floor.bays.map(({ id, lift }) => {
    const own = worked.filter(({ bay }) => bay === id);
    const stays = new Map<string, [number, number]>();
    for (const { operation, order, start, end } of own) {
      const teardown = teardownOf.get(operation) ?? null;
      const key = teardown === null ? `one ${operation}` : `all ${order} ${teardown}`;
      const known = stays.get(key);
      stays.set(key, [Math.min(start, known?.[0] ?? start), Math.max(end, known?.[1] ?? end)]);
    }
    const taken = joined([...stays.values()]).reduce(
      (sum, [from, to]) => sum + shop.opening.minutesIn(from, Math.min(to, shop.end)),
      0,
    );
    const work = own.reduce(
      (sum, { technicians, start, end }) =>
        sum + shop.together(technicians).minutesIn(start, Math.min(end, shop.end)),
      0,
    );
    return { id, isLift: lift != null, work, blocked: taken - work, idle: open - taken };
  });
}

function technicianMinutes({ shop, worked }: Replay): ReplayMeasures['technicians'] {
  return shop.floor.technicians.map(({ id }) => ({
    id,
    used: worked
      .filter(({ technicians }) => technicians.includes(id))
      .reduce(
        (sum, { technicians, start, end }) =>
          sum + shop.together(technicians).minutesIn(start, Math.min(end, shop.end)),
        0,
      ),
    available: shop.together([id]).minutesBefore(shop.end),
  }));
}
