import { runCalc } from './run-calc.js';

function calc(name: string, element: unknown): Record<string, unknown> {
  const { exitCode, stdout } = runCalc(name, JSON.stringify([element]));
  expect(exitCode).toBe(0);
  const [answer] = JSON.parse(stdout) as Record<string, unknown>[];
  return answer ?? {};
}

/** Two cars that both want the only lift; the urgent one goes first: 60 × 3 late otherwise, 90 × 1 so. By hand. */
const shop = {
  now: 0,
  technicians: [
    { id: 'ida', works: [[0, 480]] },
    { id: 'jon', works: [[0, 480]], skills: [{ skill: 'brakes', until: 400 }] },
  ],
  bays: [{ id: 'lift', lift: { kind: 'two-post', capacityKg: 3000 } }],
  repairOrders: [
    {
      id: 'one',
      promised: 60,
      vehicle: { weightKg: 1200 },
      operations: [{ id: 'a', minutes: 60, bay: { lift: true } }],
    },
    {
      id: 'two',
      promised: 90,
      weight: 3,
      vehicle: { weightKg: 1200 },
      operations: [{ id: 'b', minutes: 90, bay: { lift: true }, skills: ['brakes'] }],
    },
  ],
  timeLimitMs: 20,
};

describe('the plan on the command line', () => {
  it('plans, measures, bounds and explains', () => {
    const answer = calc('schedule', shop);
    expect(answer).toMatchObject({
      unplaced: [],
      objective: { unplaced: 0, frozenMoved: 0, lateness: 90, change: 0, blocked: 0, finish: 240 },
      late: [
        { repairOrder: 'one', promised: 60, ready: 150, steps: [{ operation: 'a' }, { operation: 'b' }] },
      ],
    });
    // 150 minutes do not fit on the lift before 90, so somebody is late in every plan; and none is better than 90.
    const { lateness } = answer.bound as { lateness: number };
    expect(lateness).toBeGreaterThan(0);
    expect(lateness).toBeLessThanOrEqual(90);
    const { assignments } = answer;
    expect(calc('check-schedule', { ...shop, assignments })).toMatchObject({
      broken: [],
      objective: { lateness: 90 },
    });
  });

  it('names the rules that a plan breaks', () => {
    const at = (operation: string, technician: string) => ({
      ...{ operation, start: 0, end: operation === 'a' ? 60 : 90, bay: 'lift', technicians: [technician] },
    });
    const { broken } = calc('check-schedule', { ...shop, assignments: [at('a', 'jon'), at('b', 'ida')] });
    expect((broken as { rule: string }[]).map(({ rule }) => rule)).toEqual(['skill-missing', 'bay-overlap']);
  });

  it('says what is wrong with a problem', () => {
    expect(calc('schedule', { ...shop, technicians: [{ id: 'ida', works: [[9, 3]] }] })).toEqual({
      error: {
        code: 'plan-problem-invalid',
        message: '/technicians/0/works/0: A period runs forward, in whole minutes.',
      },
    });
    expect(calc('schedule', { now: 0, technicians: 'nobody', bays: [], repairOrders: [{}] })).toMatchObject({
      error: { code: 'field-invalid' },
    });
  });
});
