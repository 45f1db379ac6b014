import fc from 'fast-check';
import { checkPlan } from '#libs/plan';
import { floorOf, yearOf } from '../../test/builders/what-if.js';
import { changeFloor, compareWhatIfs, figuresOf, generateYear, measureReplay, replay } from './index.js';
import type { Replay, ReplayEffort, WhatIfFloor, Year, YearDescription } from './index.js';

const quick: ReplayEffort = { patience: 10, gapMinutes: 60, mostOrders: 12 };

function year(description: YearDescription, seed = 1): Year {
  const made = generateYear(description, seed);
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

function replayed(floor: WhatIfFloor, of: Year, effort = quick): Replay {
  const done = replay(floor, of, effort);
  if (!done.ok) throw new Error(done.fault.detail);
  return done.value;
}

const anyShop = fc.record({
  bays: fc.integer({ min: 1, max: 4 }),
  technicians: fc.integer({ min: 1, max: 4 }),
  cars: fc.integer({ min: 1, max: 9 }),
  seed: fc.nat(),
  gapMinutes: fc.constantFrom(null, 0, 60),
});

describe('a year replayed', () => {
  it('plans within every rule, works within every rule, and loses no repair order', () => {
    let plans = 0;
    fc.assert(
      fc.property(anyShop, ({ bays, technicians, cars, seed, gapMinutes }) => {
        const floor = floorOf(bays, technicians);
        const of = year(yearOf(cars, 2), seed);
        const watch: ReplayEffort['watch'] = (problem, made) => {
          plans++;
          expect(checkPlan(problem, made)).toEqual([]);
        };
        const done = replayed(floor, of, { ...quick, gapMinutes, watch });
        expect(done.outcomes.map(({ order }) => Number(order.id)).sort((a, b) => a - b)).toEqual(
          of.orders.map((_, k) => k),
        );
        for (const { ready, turnedAway } of done.outcomes)
          expect(ready !== null && turnedAway !== null).toBe(false);
        expect(rulesBroken(floor, of, done)).toEqual([]);
      }),
      { numRuns: 16 },
    );
    expect(plans).toBeGreaterThan(100);
  });

  it('accounts for every hour of bays and technicians', () => {
    fc.assert(
      fc.property(anyShop, ({ bays, technicians, cars, seed }) => {
        const of = year(yearOf(cars, 2), seed);
        const done = replayed(floorOf(bays, technicians), of);
        const measures = measureReplay(done);
        const open = 2 * 5 * (240 + 270);
        let work = 0;
        for (const bay of measures.bays) {
          expect(bay.work + bay.blocked + bay.idle).toBe(open);
          for (const part of [bay.work, bay.blocked, bay.idle]) expect(part).toBeGreaterThanOrEqual(0);
          work += bay.work;
        }
        let used = 0;
        for (const one of measures.technicians) {
          expect(one.used).toBeLessThanOrEqual(one.available);
          used += one.used;
        }
        // Everybody works alone here, off the car (no bay) or in a bay.
        const off = done.worked
          .filter(({ bay }) => bay === null)
          .reduce((sum, { technicians: who, start, end }) => sum + worked(done, who, start, end), 0);
        expect(used).toBe(work + off);
        expect(measures.ready + measures.openAtEnd + measures.turnedAway).toBe(of.orders.length);
      }),
      { numRuns: 10 },
    );
  });

  // J. D. C. Little, "A Proof for the Queuing Formula L = λW", Operations Research 9 (1961): over a time at whose start
  // nobody is there, with the stays of those who are left cut at its end, it holds to the last minute.
  it("keeps Little's law: cars here = cars that come × how long they stay", () => {
    fc.assert(
      fc.property(anyShop, ({ bays, technicians, cars, seed }) => {
        const done = replayed(floorOf(bays, technicians), year(yearOf(cars, 2), seed));
        const { end } = done.shop;
        const stays = done.outcomes.map(
          ({ order, ready, turnedAway }) => (ready ?? turnedAway ?? end) - order.arrives,
        );
        const sum = stays.reduce((total, stay) => total + stay, 0);
        expect(measureReplay(done).meanCarsHere).toBeCloseTo(sum / end, 9);
      }),
      { numRuns: 10 },
    );
  });

  it('lets nobody work while they are away, and gives what others can do to them', () => {
    fc.assert(
      fc.property(anyShop, fc.integer({ min: 0, max: 6 }), ({ bays, technicians, cars, seed }, day) => {
        const floor = floorOf(bays, technicians);
        const away: [number, number] = [day * 1440 + 600, (day + 3) * 1440 + 600];
        const [first, ...others] = floor.technicians;
        if (first === undefined) return;
        const of = year(yearOf(cars, 2), seed);
        const done = replayed({ ...floor, technicians: [{ ...first, away: [away] }, ...others] }, of);
        const calendar = done.shop.together([first.id]);
        expect(calendar.minutesIn(...away)).toBe(0);
        for (const { technicians: who, start, end } of done.worked)
          if (who.includes(first.id)) {
            expect(start < away[0] || start >= away[1]).toBe(true);
            // What is begun before goes on after, as over a night.
            expect(end <= away[0] || end > away[1] || start >= away[1]).toBe(true);
          }
        const whole = replayed(floor, of);
        expect(
          calendar.minutesBefore(done.shop.end) + whole.shop.together([first.id]).minutesIn(...away),
        ).toBe(whole.shop.together([first.id]).minutesBefore(done.shop.end));
      }),
      { numRuns: 8 },
    );
  });

  it('comes out the same again', () => {
    fc.assert(
      fc.property(anyShop, ({ bays, technicians, cars, seed }) => {
        const [one, other] = [1, 2].map(() => {
          const done = replayed(floorOf(bays, technicians), year(yearOf(cars, 1), seed));
          return { worked: done.worked, outcomes: done.outcomes };
        });
        expect(one).toEqual(other);
      }),
      { numRuns: 6 },
    );
  });

  it('turns away what nobody here can do, and does it once there is a tool for it', () => {
    const floor = { ...floorOf(3, 3), tools: [] };
    const of = year(yearOf(5, 2), 3);
    const pressed = of.orders.filter(({ operations }) =>
      operations.some(({ tools }) => tools?.includes('press')),
    );
    expect(pressed.length).toBeGreaterThan(3);
    expect(measureReplay(replayed(floor, of)).turnedAway).toBe(pressed.length);
    const bought = changeFloor(floor, { kind: 'tool', tool: 'press' });
    if (!bought.ok) throw new Error(bought.fault.detail);
    expect(measureReplay(replayed(bought.value, of)).turnedAway).toBe(0);
  });
});

describe('what-ifs compared', () => {
  const seeds = [1, 2, 3, 4];

  it('shows no difference at all where nothing is different', () => {
    const made = compareWhatIfs(floorOf(3, 3), yearOf(4, 2), [{ name: 'as it is', changes: [] }], {
      seeds,
      effort: quick,
    });
    if (!made.ok) throw new Error(made.fault.detail);
    const [same] = made.value.alternatives;
    expect(same?.figures).toEqual(made.value.base);
    for (const difference of Object.values(same?.differences ?? {}))
      expect(difference).toEqual({ mean: 0, bounds: { lo: 0, hi: 0 } });
  });

  it('finds that a scarce technician helps, and that a lift nobody can work at only stands idle', () => {
    const made = compareWhatIfs(
      floorOf(3, 1),
      yearOf(4, 4),
      [
        { name: 'one more technician', changes: [{ kind: 'technician', like: 'technician 1' }] },
        { name: 'one more lift', changes: [{ kind: 'bay', like: 'bay 2' }] },
      ],
      { seeds: [...seeds, 5], effort: quick },
    );
    if (!made.ok) throw new Error(made.fault.detail);
    const [person, lift] = made.value.alternatives;
    expect(person?.differences.lateHoursPerWeek.bounds?.hi).toBeLessThan(0);
    expect(person?.differences.readyPerWeek.bounds?.lo).toBeGreaterThan(0);
    expect(lift?.differences.liftIdleHoursPerWeek.bounds?.lo).toBeGreaterThan(20);
    expect(Math.abs(lift?.differences.readyPerWeek.mean ?? 9)).toBeLessThan(0.5);
    expect(lift?.advice.map(({ code }) => code)).toEqual(['changes-nothing', 'technicians-scarcer']);
  });

  it('costs lateness to lose a lift, and gains by an open Saturday', () => {
    const made = compareWhatIfs(
      floorOf(2, 3),
      yearOf(7, 2),
      [
        { name: 'one lift less', changes: [{ kind: 'bay-away', bay: 'bay 2' }] },
        { name: 'Saturday morning', changes: [{ kind: 'day-open', weekday: 6, from: 480, to: 780 }] },
      ],
      { seeds, effort: quick },
    );
    if (!made.ok) throw new Error(made.fault.detail);
    const [less, saturday] = made.value.alternatives;
    expect(less?.differences.lateHoursPerWeek.bounds?.lo).toBeGreaterThan(0);
    expect(saturday?.differences.lateHoursPerWeek.bounds?.hi).toBeLessThan(0);
  });

  it('refuses what cannot be, and says what', () => {
    const ask = (changes: Parameters<typeof changeFloor>[1][], more: readonly number[] = seeds) => {
      const made = compareWhatIfs(floorOf(1, 1), yearOf(1, 1), [{ name: 'x', changes }], { seeds: more });
      return made.ok ? null : made.fault.code;
    };
    expect(ask([{ kind: 'bay', like: 'nowhere' }])).toBe('floor-change-not-possible');
    expect(ask([{ kind: 'technician-away', technician: 'nobody' }])).toBe('floor-change-not-possible');
    expect(ask([{ kind: 'day-open', weekday: 8, from: 0, to: 60 }])).toBe('floor-change-not-possible');
    expect(ask([], [1, 1])).toBe('seeds-invalid');
  });

  it('has every figure for every year', () => {
    const figures = figuresOf(measureReplay(replayed(floorOf(1, 1), year(yearOf(2, 1)))), 1);
    for (const figure of Object.values(figures)) expect(Number.isFinite(figure)).toBe(true);
  });
});

const worked = ({ shop }: Replay, technicians: readonly string[], start: number, end: number): number =>
  shop.together(technicians).minutesIn(start, Math.min(end, shop.end));

/** The rules of a floor, checked on what was really done and by nothing that did it. */
function rulesBroken(floor: WhatIfFloor, of: Year, { worked: done, outcomes }: Replay): string[] {
  const broken: string[] = [];
  const byId = new Map(done.map((one) => [one.operation, one]));
  const apart = (key: (one: (typeof done)[number]) => readonly string[], what: string): void => {
    const until = new Map<string, number>();
    for (const one of [...done].sort((a, b) => a.start - b.start))
      for (const id of key(one)) {
        if ((until.get(id) ?? 0) > one.start) broken.push(`${what} ${id} twice at ${one.start}`);
        until.set(id, Math.max(one.end, until.get(id) ?? 0));
      }
  };
  apart(({ technicians }) => technicians, 'technician');
  apart(({ tools }) => tools, 'tool');
  apart(({ bay, order }) => (bay === null ? [] : [order]), 'car');
  const stays = new Map<string, { bay: string; order: string; from: number; to: number }>();
  for (const order of of.orders)
    for (const { id, after, partsAt, bay, skills = [], teardown, actualMinutes } of order.operations) {
      const one = byId.get(id);
      if (one === undefined) continue;
      if (one.start < Math.max(order.arrives, partsAt ?? 0)) broken.push(`${id} before car or parts`);
      for (const other of after ?? [])
        if ((byId.get(other)?.end ?? Infinity) > one.start) broken.push(`${id} before ${other}`);
      const [lead] = one.technicians;
      const who = floor.technicians.find((technician) => technician.id === lead);
      if (!skills.every((skill) => who?.skills?.includes(skill))) broken.push(`${id} without the skill`);
      const place = floor.bays.find((candidate) => candidate.id === one.bay);
      if (bay?.lift === true && (place?.lift?.capacityKg ?? 0) < (order.vehicle.weightKg ?? Infinity))
        broken.push(`${id} on a lift that is too weak`);
      if (actualMinutes > one.end - one.start) broken.push(`${id} too short`);
      if (one.bay === null) continue;
      const key = teardown == null ? id : `${order.id} ${teardown}`;
      const known = stays.get(key);
      if (known !== undefined && known.bay !== one.bay) broken.push(`${id} moved while apart`);
      stays.set(key, {
        ...{ bay: one.bay, order: order.id },
        from: Math.min(one.start, known?.from ?? one.start),
        to: Math.max(one.end, known?.to ?? one.end),
      });
    }
  const inOrder = [...stays.values()].sort((a, b) => a.from - b.from);
  inOrder.forEach((stay, k) => {
    for (const other of inOrder.slice(k + 1))
      if (other.bay === stay.bay && other.order !== stay.order && other.from < stay.to)
        broken.push(`${stay.bay} has two cars at ${other.from}`);
  });
  for (const { order, ready } of outcomes)
    if (
      ready !== null &&
      ready !== Math.max(...order.operations.map(({ id }) => byId.get(id)?.end ?? Infinity))
    )
      broken.push(`${order.id} is not ready then`);
  return broken;
}
