import fc from 'fast-check';
import { triedAll } from '../../test/builders/best-by-trying.js';
import { begunShop, TINY_DAY, tinyShop } from '../../test/builders/plan-problem.js';
import { checkPlan, plan, replan } from './index.js';
import type { PlanAnswer, PlanOperation, PlanProblem } from './index.js';

const effort = (lookLimit: number) => ({ timeLimitMs: 1, now: (): number => 0, seed: 1, lookLimit });
const RUNS = Number(process.env['RUNS'] ?? 160);
const SEED = Number(process.env['SEED'] ?? 20260201);

function planned(problem: PlanProblem, lookLimit = 2500): PlanAnswer {
  const made = plan(problem, effort(lookLimit));
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

/** What a shop has of everything that makes planning hard; each must be among what is compared. */
const FEATURES: Readonly<Record<string, (problem: PlanProblem) => boolean>> = {
  started: (problem) => someWork(problem, ({ started }) => started != null),
  pinned: (problem) => someWork(problem, ({ pin }) => pin?.start != null || pin?.technicians != null),
  crewOfTwo: (problem) => someWork(problem, ({ crew }) => crew === 2),
  teardown: ({ repairOrders }) =>
    repairOrders.some(
      ({ operations }) =>
        operations.filter(({ teardown, bay }) => teardown != null && bay != null).length > 1,
    ),
  toolOfTwoUnits: (problem) => {
    const kinds = (problem.tools ?? []).map(({ kind }) => kind);
    const isTwice = (kind: string): boolean => kinds.indexOf(kind) !== kinds.lastIndexOf(kind);
    return someWork(problem, ({ tools }) => tools?.some(isTwice) === true);
  },
  closedTool: ({ tools }) => tools?.some(({ outOfService }) => (outOfService?.length ?? 0) > 0) === true,
  closedBay: ({ bays }) => bays.some(({ outOfService }) => (outOfService?.length ?? 0) > 0),
  engaged: ({ technicians }) => technicians.some(({ engaged }) => (engaged?.length ?? 0) > 0),
  breaks: ({ technicians }) => technicians.some(({ works }) => works.length > 1),
  skillThatEnds: (problem) =>
    problem.technicians.some(({ skills }) =>
      skills?.some(
        ({ skill, until }) =>
          until != null && someWork(problem, (one) => one.skills?.includes(skill) === true),
      ),
    ),
  liftUntil: ({ bays }) => bays.some(({ lift }) => lift?.until != null),
};

const someWork = ({ repairOrders }: PlanProblem, is: (one: PlanOperation) => boolean): boolean =>
  repairOrders.some(({ operations }) => operations.some(is));

const openOf = ({ repairOrders }: PlanProblem): number =>
  repairOrders.flatMap(({ operations }) => operations).filter(({ started }) => started == null).length;

const isTiny = (problem: PlanProblem): boolean => openOf(problem) <= 4 && openOf(problem) > 0;

describe('the best of all plans, found by trying them all', () => {
  it('is found with work that was started and people who are engaged', () => {
    let [compared, late] = [0, 0];
    const with_ = new Map<string, number>();
    fc.assert(
      fc.property(begunShop(3, 3).filter(isTiny), (problem) => {
        const best = triedAll(problem, TINY_DAY);
        const made = planned(problem);
        expect(checkPlan(problem, made)).toEqual([]);
        expect(made.unplaced.length === 0).toBe(best !== null);
        if (best === null) return;
        compared++;
        for (const [feature, has] of Object.entries(FEATURES))
          if (has(problem)) with_.set(feature, (with_.get(feature) ?? 0) + 1);
        if (best.lateness > 0) late++;
        expect(made.cost.lateness).toBe(best.lateness);
        expect(made.latenessBound).toBeLessThanOrEqual(best.lateness);
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(compared).toBeGreaterThan(RUNS / 4);
    expect(late).toBeGreaterThan(RUNS / 20);
    if (process.env['RUNS'] !== undefined) console.log(compared, late, with_);
    for (const feature of Object.keys(FEATURES)) expect(with_.get(feature) ?? 0).toBeGreaterThan(1);
  });

  it('leaves out what is pinned to a bay other than the one in which its car stands apart', () => {
    const started = { start: 0, end: 6, bay: 'b1', technicians: ['ida'], tools: [] };
    const problem: PlanProblem = {
      now: 5,
      technicians: [{ id: 'ida', works: [[0, 90]] }],
      bays: [{ id: 'b0' }, { id: 'b1' }],
      repairOrders: [
        {
          id: 'r',
          operations: [
            { id: 'off', minutes: 6, bay: {}, teardown: 'engine', started },
            { id: 'on', minutes: 6, bay: {}, teardown: 'engine', pin: { bay: 'b0' } },
          ],
        },
      ],
    };
    const made = planned(problem, 50);
    expect(checkPlan(problem, made)).toEqual([]);
    expect(made.unplaced).toEqual([
      {
        operation: 'on',
        why: 'It is pinned to a bay other than the one in which its vehicle stands apart.',
      },
    ]);
    expect(triedAll(problem, TINY_DAY)).toBeNull();
  });

  it('is found around a plan of which the near part is frozen', () => {
    const weights = { startMoved: 0, hourMoved: 0, technicianChanged: 0, bayChanged: 0 };
    let [compared, frozen, missed] = [0, 0, 0];
    const misses: unknown[] = [];
    fc.assert(
      fc.property(
        tinyShop(2, 2).filter((problem) => openOf(problem) <= 3),
        fc.integer({ min: 2, max: 30 }),
        fc.tuple(fc.nat(12), fc.integer({ min: 1, max: 8 })),
        fc.integer({ min: 1, max: 6 }),
        (shop, frozenUntil, [from, long], minutes) => {
          const before = planned(shop, 100);
          if (before.unplaced.length > 0) return;
          const engaged = [[from, from + long] as const];
          const technicians = shop.technicians.map((one, k) => (k === 0 ? { ...one, engaged } : one));
          const order = { id: 'new', promised: 4, weight: 3, operations: [{ id: 'new 1', minutes }] };
          const problem: PlanProblem = {
            ...{ ...shop, technicians, frozenUntil, weights, previous: before.assignments },
            repairOrders: [...shop.repairOrders, order],
          };
          const best = triedAll(problem, TINY_DAY);
          const made = replan(problem, effort(2500), { improve: true });
          if (!made.ok) throw new Error(made.fault.detail);
          expect(checkPlan(problem, made.value)).toEqual([]);
          expect(made.value.unplaced.length === 0).toBe(best !== null);
          if (best === null) return;
          const { frozenMoved, lateness } = made.value.cost;
          compared++;
          if (before.assignments.some(({ start }) => start < frozenUntil)) frozen++;
          const part = frozenMoved - best.frozenMoved;
          expect(part !== 0 ? part : lateness - best.lateness).toBeGreaterThanOrEqual(0);
          if (frozenMoved !== best.frozenMoved || lateness !== best.lateness) {
            missed++;
            misses.push({ problem, best, made: { frozenMoved, lateness } });
          }
        },
      ),
      { numRuns: RUNS, seed: SEED },
    );
    if (process.env['RUNS'] !== undefined)
      console.log(compared, frozen, missed, JSON.stringify(misses.slice(0, 6)));
    expect(compared).toBeGreaterThan(RUNS / 4);
    expect(frozen).toBeGreaterThan(RUNS / 5);
    expect(missed).toBeLessThanOrEqual(compared / 50);
  });
});
