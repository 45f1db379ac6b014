import { runCalc } from './run-calc.js';

interface Answer {
  readonly p10Cents: number;
  readonly p50Cents: number;
  readonly p80Cents: number;
  readonly p95Cents: number;
  readonly meanCents: number;
  readonly sdCents: number;
  readonly likelyCents: number;
  readonly shares: readonly {
    readonly kind: string;
    readonly id: string | null;
    readonly sharePpm: number;
  }[];
  readonly closedForm: { readonly meanCents: number; readonly sdCents: number } | null;
  readonly draws: number;
  readonly seed: number;
  readonly ms: number;
  readonly error?: { readonly code: string; readonly message: string };
}

function calc(...elements: unknown[]): Answer[] {
  const outcome = runCalc('range', JSON.stringify(elements));
  expect(outcome).toMatchObject({ exitCode: 0, stderr: '' });
  return JSON.parse(outcome.stdout) as Answer[];
}
const one = (element: unknown): Answer => {
  const [answer] = calc(element);
  if (answer === undefined) throw new Error('one answer for one element');
  return answer;
};

/** By hand: 100, 130 and 220 of labour; 50, 60 and 100 of parts. */
const PUMP = {
  id: 'pump',
  rateCentsPerHour: 10_000,
  hundredths: { low: 100, likely: 130, high: 220 },
  partsCents: { low: 5000, likely: 6000, high: 10_000 },
};

describe('calc range', () => {
  it('agrees with the closed form where there is one', () => {
    // Mean (100 + 130 + 220) / 3 + (50 + 60 + 100) / 3 = 220; variance (30² + 30·90 + 90²) / 18 + (10² + 10·40 + 40²) / 18.
    const answer = one({ lines: [PUMP], draws: 50_000 });
    expect(answer).toMatchObject({
      likelyCents: 19_000,
      closedForm: { meanCents: 22_000, sdCents: Math.round(100 * Math.sqrt(11_700 / 18 + 2100 / 18)) },
      draws: 50_000,
      seed: 1,
      ms: expect.any(Number) as number,
    });
    expect(Math.abs(answer.meanCents - 22_000)).toBeLessThan(60);
    expect(Math.abs(answer.sdCents - (answer.closedForm?.sdCents ?? 0))).toBeLessThan(45);
    expect(answer.shares.reduce((sum, { sharePpm }) => sum + sharePpm, 0)).toBe(1_000_000);
    expect(one({ lines: [PUMP] })).toMatchObject({ p80Cents: one({ lines: [PUMP] }).p80Cents });
    expect(one({ lines: [PUMP], seed: 2 }).p80Cents).not.toBe(one({ lines: [PUMP] }).p80Cents);
  });

  it('shares steps once, with supplies and taxes, to the cent where nothing varies', () => {
    const steps = [
      { id: 'cover', hundredths: 100 },
      { id: 'pump', hundredths: 60 },
      { id: 'belt', hundredths: 80 },
    ];
    const answer = one({
      steps,
      lines: [
        { id: 'pump', rateCentsPerHour: 10_000, steps: ['cover', 'pump'], partsCents: 9000 },
        { id: 'belt', rateCentsPerHour: 10_000, steps: ['cover', 'belt'], partsCents: 4000 },
      ],
      supplies: { ratePpm: 50_000, capCents: 1000 },
      taxes: [{ ratePpm: 80_000, on: ['parts', 'supplies'] }],
      fixedCents: 500,
    });
    const total = 24_000 + 13_000 + 1000 + 1120 + 500;
    expect(answer).toMatchObject({ p10Cents: total, p95Cents: total, likelyCents: total, sdCents: 0 });
    expect(answer.closedForm).toMatchObject({ meanCents: total, sdCents: 0 });
  });

  it('takes contingencies up to their cap, unseen checkpoints and the common factor', () => {
    const maybe = one({
      lines: [{ id: 'a', partsCents: 10_000 }],
      contingencies: [
        {
          id: 'nut',
          chancePpm: 250_000,
          rateCentsPerHour: 10_000,
          hundredths: 60,
          partsCents: 4000,
          capCents: 7500,
        },
      ],
    });
    expect(maybe).toMatchObject({ p50Cents: 10_000, p80Cents: 17_500, likelyCents: 10_000 });
    // 0.25 · 75 and sqrt(0.25 · 0.75) · 75.
    expect(maybe.closedForm).toMatchObject({ meanCents: 11_875, sdCents: 3248 });
    const unseen = one({ lines: [], unseen: [{ id: 'hose', chancePpm: 1_000_000, cents: 9000 }] });
    expect(unseen).toMatchObject({ p10Cents: 9000, p95Cents: 9000 });
    const common = one({ lines: [{ ...PUMP, partsCents: 0, hundredths: 100 }], commonSpreadPpm: 200_000 });
    expect(common.closedForm).toMatchObject({ meanCents: 10_000, sdCents: 2000 });
    expect(common.shares.at(-1)).toEqual({ kind: 'common', id: null, sharePpm: 1_000_000 });
    const corner = one({ lines: [PUMP], supplies: { ratePpm: 100_000, capCents: 1500 } });
    expect(corner.closedForm).toBeNull();
  });

  it.each<[object, string, string]>([
    [{}, 'field-missing', '"lines"'],
    [{ lines: [{}] }, 'field-missing', '"lines[0].id"'],
    [
      { lines: [{ id: 'a', hundredths: { low: 3, likely: 2, high: 4 } }] },
      'field-invalid',
      '"lines[0].hundredths.likely" must not be below "low"',
    ],
    [
      { lines: [{ id: 'a', partsCents: { low: 1, likely: 5, high: 4 } }] },
      'field-invalid',
      '"lines[0].partsCents.high" must not be below "likely"',
    ],
    [{ lines: [{ id: 'a', partsCents: { low: 1 } }] }, 'field-missing', '"lines[0].partsCents.likely"'],
    [{ lines: [{ id: 'a', hundredths: -1 }] }, 'field-invalid', '"lines[0].hundredths"'],
    [{ lines: [{ id: 'a', hundredths: 'two' }] }, 'field-invalid', '"lines[0].hundredths"'],
    [{ lines: [{ id: 'a', steps: ['x'] }] }, 'field-invalid', '"lines[0].steps[0]" names "x"'],
    [
      { lines: [{ id: 'a', steps: ['x'], hundredths: 2 }], steps: [{ id: 'x', hundredths: 3 }] },
      'field-invalid',
      '"lines[0].hundredths" must have 3',
    ],
    [{ lines: [{ id: 'a' }, { id: 'a' }] }, 'line-listed-twice', '"a"'],
    [
      { lines: [], contingencies: [{ id: 'n', chancePpm: 1_000_001 }] },
      'field-invalid',
      '"contingencies[0].chancePpm"',
    ],
    [{ lines: [], contingencies: [{ id: 'n' }] }, 'field-missing', '"contingencies[0].chancePpm"'],
    [
      { lines: [], contingencies: [{ id: 'n', chancePpm: 1, partsCents: { low: 1, likely: 2, high: 3 } }] },
      'field-invalid',
      '"contingencies[0].partsCents" must be one number',
    ],
    [{ lines: [], unseen: [{ id: 'u', chancePpm: 1, cents: [] }] }, 'field-invalid', '"unseen[0].cents"'],
    [{ lines: [], unseen: 7 }, 'field-invalid', '"unseen"'],
    [{ lines: [], taxes: [{ ratePpm: 1, on: ['tyres'] }] }, 'field-invalid', '"taxes[0].on[0]"'],
    [{ lines: [], supplies: { ratePpm: 1, base: 'all' } }, 'field-invalid', '"supplies.base"'],
    [{ lines: [], supplies: [] }, 'not-an-object', '"supplies"'],
    [{ lines: [], commonSpreadPpm: 0.1 }, 'field-invalid', '"commonSpreadPpm"'],
    [{ lines: [], draws: 99 }, 'field-invalid', '"draws"'],
    [{ lines: [], draws: 100_001 }, 'field-invalid', '"draws"'],
    [{ lines: [], seed: -1 }, 'field-invalid', '"seed"'],
  ])('refuses %j', (element, code, named) => {
    const { error } = one(element);
    expect(error?.code).toBe(code);
    expect(error?.message).toContain(named);
  });
});
