import fc from 'fast-check';
import { COMPUTATIONS } from './computations/registry.js';
import { runCalc } from './run-calc.js';

/** Runs the command on values, as a shell would on their JSON. */
function calc(name: string, ...elements: unknown[]): unknown[] {
  const outcome = runCalc(name, JSON.stringify(elements));
  expect(outcome).toMatchObject({ exitCode: 0, stderr: '' });
  const answers = JSON.parse(outcome.stdout) as unknown[];
  expect(answers).toHaveLength(elements.length);
  return answers;
}

function refusal(name: string, element: unknown): { code: string; message: string } {
  const [answer] = calc(name, element);
  expect(answer).toEqual({
    error: { code: expect.any(String) as string, message: expect.any(String) as string },
  });
  return (answer as { error: { code: string; message: string } }).error;
}

describe('each computation, on worked figures (sources: the specs of the libs)', () => {
  it('vin', () => {
    expect(
      calc(
        'vin',
        { input: '1g4ah59h4-5g-118341' },
        { input: '1G4AH59H45G118341', modelYear: 2005 },
        { input: '123456', modelYear: 1955 },
      ),
    ).toEqual([
      { verdict: 'valid', normalised: '1G4AH59H45G118341', checkDigit: '4', modelYears: [2005, 2035] },
      { verdict: 'valid', normalised: '1G4AH59H45G118341', checkDigit: '4', modelYears: [2005] },
      { verdict: 'accept-unchecked', normalised: '123456', checkDigit: null, modelYears: [] },
    ]);
  });

  it('labour', () => {
    const steps = (given: Record<string, number>) =>
      Object.entries(given).map(([step, hundredths]) => ({ step, position: '', hundredths }));
    const operations = [
      { id: 'A', steps: steps({ drain: 20, 'belt off': 30, 'cover off': 50, pump: 60, refill: 30 }) },
      { id: 'B', steps: steps({ 'belt off': 30, 'cover off': 50, 'timing belt': 100 }) },
      { id: '__proto__', steps: steps({ lamp: 10 }) },
    ];
    expect(calc('labour', { operations, chosen: ['B', 'A'] }, { operations, chosen: [] })).toEqual([
      { alone: { A: 190, B: 180 }, together: 290, shares: { A: 150, B: 140 } },
      { alone: {}, together: 0, shares: {} },
    ]);
    expect(runCalc('labour', JSON.stringify([{ operations, chosen: ['__proto__'] }])).stdout).toBe(
      '[{"alone":{"__proto__":10},"together":10,"shares":{"__proto__":10}}]\n',
    );
  });

  it('allocate', () => {
    expect(
      calc(
        'allocate',
        { cents: 10000, weights: [1, 1, 1] },
        { cents: -1000, weights: [1, 1, 1] },
        { cents: 9007199254740991, weights: [0.1, 0.2] },
      ),
    ).toEqual([
      { parts: [3334, 3333, 3333] },
      { parts: [-334, -333, -333] },
      { parts: [3002399751580330, 6004799503160661] },
    ]);
  });

  it('tax', () => {
    expect(
      calc(
        'tax',
        { amount: '10.05', rate: '0.065' },
        { amount: '12.50', rate: '0.05', rounding: 'half-even' },
        { amount: '-12.50', rate: '0.05' },
        { amount: '-0.01', rate: '0.05' },
        { amount: '99999999999999999999.99', rate: '0.08875001' },
        { amount: '0.10', rate: '.05', rounding: null },
      ),
    ).toEqual([
      { tax: '0.65' },
      { tax: '0.62' },
      { tax: '-0.63' },
      { tax: '0.00' },
      { tax: '8875001000000000000.00' },
      { tax: '0.01' },
    ]);
  });

  it('invoice-tax', () => {
    expect(
      calc(
        'invoice-tax',
        { lines: ['10.30', '10.30', '10.30'], rate: '0.0725' },
        { lines: ['0.07', '0.07', '0.07'], rate: '0.07' },
        { lines: [], rate: '0.07' },
      ),
    ).toEqual([
      { perLine: ['0.75', '0.75', '0.75'], sumPerLine: '2.25', invoice: '2.24' },
      { perLine: ['0.00', '0.00', '0.00'], sumPerLine: '0.00', invoice: '0.01' },
      { perLine: [], sumPerLine: '0.00', invoice: '0.00' },
    ]);
  });

  it('punch, hours and wilson', () => {
    expect(
      calc('punch', { punch: '07:52:29', increment: 'five' }, { punch: '07:53', increment: 'quarter' }),
    ).toEqual([{ rounded: '07:50' }, { rounded: '08:00' }]);
    expect(calc('hours', { minutes: 7 })).toEqual([{ hours2: '0.12', tenths: '0.1' }]);
    const [bounds] = calc('wilson', { x: 81, n: 263 }) as { lo: number; hi: number }[];
    expect(bounds?.lo).toBeCloseTo(0.255289, 6);
    expect(bounds?.hi).toBeCloseTo(0.36621, 6);
    expect(calc('wilson', { x: 5, n: 5, confidence: 0.95 })).toMatchObject([{ hi: 1 }]);
  });

  it('budget and ladder', () => {
    const lines = [
      { id: 'pump', benefit: 50, cents: 12_000, steps: ['cover'] },
      { id: 'belt', benefit: 40, cents: 8000, steps: ['cover'], mustInclude: true },
    ];
    const steps = [{ id: 'cover', cents: 10_000 }];
    expect(
      calc(
        'budget',
        { budgetCents: 30_000, lines, steps },
        { budgetCents: 29_999, lines, steps, timeLimitMs: 5 },
        { budgetCents: 17_999, lines, steps },
      ),
    ).toEqual([
      {
        chosen: ['pump', 'belt'],
        benefit: 90,
        priceCents: 30_000,
        proven: true,
        upperBound: 90,
        ms: expect.any(Number) as number,
      },
      expect.objectContaining({ chosen: ['belt'], benefit: 40, priceCents: 18_000, proven: true }),
      {
        error: {
          code: 'must-include-too-dear',
          message: 'What must be included costs 18000 cents, more than the budget.',
        },
      },
    ]);
    expect(calc('ladder', { lines, steps })).toEqual([
      {
        rungs: [
          { priceCents: 18_000, benefit: 40, chosen: ['belt'] },
          { priceCents: 30_000, benefit: 90, chosen: ['pump', 'belt'] },
        ],
        proven: true,
      },
    ]);
  });

  it('supplies, margin and matrix', () => {
    const terms = { rate: '0.06', capCents: 3500 };
    expect(
      calc(
        'supplies',
        { ...terms, labourCents: 0 },
        { ...terms, labourCents: 12_345 },
        { ...terms, labourCents: 58_334 },
        { ...terms, labourCents: 90_000, capCents: null },
        { ...terms, labourCents: 1000, floorCents: 500 },
      ),
    ).toEqual([0, 741, 3500, 5400, 500].map((chargeCents) => ({ chargeCents })));
    const markups = [25, 33.3333333333, '50.0', '66.6666666667', 150, 200];
    expect(calc('margin', ...markups.map((markupPercent) => ({ markupPercent })))).toEqual(
      [20, 25, 33.33, 40, 60, 66.67].map((marginPercent) => ({ marginPercent })),
    );
    const bands = [
      [0, 1000, '3.00'],
      [1000, null, '2.20'],
    ];
    expect(
      calc(
        'matrix',
        { bands, method: 'marginal', costCents: 1001 },
        { bands, costCents: 999 },
        { bands, method: 'whole-band', costCents: 1000 },
      ),
    ).toEqual([
      { priceCents: 3002 },
      { priceCents: 2997 },
      {
        priceCents: 2200,
        warnings: [expect.stringContaining('7.97 less than one that costs 9.99') as string],
      },
    ]);
  });
});

describe('bad elements answer in their place, by field and with the remedy', () => {
  const step = { step: 'wheel off', position: 'left', hundredths: 30 };
  const wheel = { id: 'wheel', steps: [step] };
  it.each<[string, unknown, string, string]>([
    ['vin', {}, 'field-missing', '"input"'],
    ['vin', { input: 11111111111111111 }, 'field-invalid', '"input"'],
    ['vin', { input: 'X', modelYear: '1969' }, 'field-invalid', '"modelYear"'],
    ['vin', { input: 'X', modelYear: 1969.5 }, 'field-invalid', '"modelYear"'],
    ['labour', { operations: [wheel] }, 'field-missing', '"chosen"'],
    ['labour', { operations: {}, chosen: [] }, 'field-invalid', '"operations"'],
    ['labour', { operations: [wheel], chosen: ['hood'] }, 'operation-unknown', 'hood'],
    ['labour', { operations: [wheel], chosen: [1] }, 'field-invalid', '"chosen[0]"'],
    ['labour', { operations: [wheel, wheel], chosen: [] }, 'operation-id-twice', 'wheel'],
    ['labour', { operations: [wheel, 'lamp'], chosen: [] }, 'not-an-object', '"operations[1]"'],
    ['labour', { operations: [{ id: '', steps: [] }], chosen: [] }, 'field-invalid', '"operations[0].id"'],
    [
      'labour',
      { operations: [{ id: 'a', steps: [{ ...step, hundredths: -1 }] }], chosen: ['a'] },
      'field-invalid',
      '"operations[0].steps[0].hundredths"',
    ],
    [
      'labour',
      { operations: [{ id: 'a', steps: [{ ...step, hundredths: 0.5 }] }], chosen: ['a'] },
      'field-invalid',
      '"operations[0].steps[0].hundredths"',
    ],
    [
      'labour',
      { operations: [{ id: 'a', steps: [step, { ...step, hundredths: 31 }] }], chosen: ['a'] },
      'step-hours-differ',
      'wheel off',
    ],
    ['allocate', { cents: 10.5, weights: [1] }, 'field-invalid', '"cents"'],
    ['allocate', { cents: '10', weights: [1] }, 'field-invalid', '"cents"'],
    ['allocate', { cents: 2 ** 53, weights: [1] }, 'field-invalid', '"cents"'],
    ['allocate', { cents: 10, weights: [1, -1] }, 'field-invalid', '"weights[1]"'],
    ['allocate', { cents: 10, weights: [null] }, 'field-invalid', '"weights[0]"'],
    ['allocate', { cents: 10, weights: [] }, 'field-invalid', '"weights"'],
    ['tax', { amount: 10.05, rate: '0.065' }, 'field-invalid', '"amount"'],
    ['tax', { amount: '1,000', rate: '0.065' }, 'decimal-invalid', '"amount"'],
    ['tax', { amount: '10.05', rate: '6.5%' }, 'decimal-invalid', '"rate"'],
    ['tax', { amount: '10.05', rate: '-0.065' }, 'field-invalid', '"rate"'],
    ['tax', { amount: '10.05', rate: '0.065', rounding: 'up' }, 'field-invalid', '"rounding"'],
    ['invoice-tax', { lines: ['1.00', 2], rate: '0.05' }, 'field-invalid', '"lines[1]"'],
    ['invoice-tax', { lines: '1.00', rate: '0.05' }, 'field-invalid', '"lines"'],
    ['invoice-tax', { lines: ['x'], rate: '0.05' }, 'decimal-invalid', '"lines[0]"'],
    ['punch', { punch: '25:00', increment: 'five' }, 'punch-invalid', '"punch"'],
    ['punch', { punch: '07:52', increment: 'half' }, 'field-invalid', '"increment"'],
    ['punch', { punch: '07:52' }, 'field-missing', '"increment"'],
    ['hours', { minutes: -1 }, 'field-invalid', '"minutes"'],
    ['hours', { minutes: '7' }, 'field-invalid', '"minutes"'],
    ['hours', { minutes: null }, 'field-invalid', '"minutes"'],
    ['budget', { lines: [], steps: [] }, 'field-missing', '"budgetCents"'],
    ['budget', { budgetCents: -1, lines: [], steps: [] }, 'field-invalid', '"budgetCents"'],
    [
      'budget',
      { budgetCents: 1, lines: [{ id: 'a', benefit: 0.5, cents: 1, steps: [] }], steps: [] },
      'field-invalid',
      '"lines[0].benefit"',
    ],
    [
      'budget',
      {
        budgetCents: 1,
        lines: [{ id: 'a', benefit: 1, cents: 1, steps: [], mustInclude: 'yes' }],
        steps: [],
      },
      'field-invalid',
      '"lines[0].mustInclude"',
    ],
    [
      'budget',
      { budgetCents: 1, lines: [{ id: 'a', benefit: 1, cents: 1, steps: ['lid'] }], steps: [] },
      'step-unknown',
      '"lid"',
    ],
    ['ladder', { lines: [], steps: [], timeLimitMs: 0 }, 'field-invalid', '"timeLimitMs"'],
    [
      'ladder',
      {
        lines: [],
        steps: [
          { id: 'a', cents: 1 },
          { id: 'a', cents: 2 },
        ],
      },
      'step-listed-twice',
      '"a"',
    ],
    ['supplies', { rate: '0.06' }, 'field-missing', '"labourCents"'],
    ['supplies', { labourCents: 1, rate: 0.06 }, 'field-invalid', '"rate"'],
    ['supplies', { labourCents: 1, rate: '6' }, 'field-invalid', '"rate"'],
    ['supplies', { labourCents: 1, rate: '-0.06' }, 'rate-negative', '"rate"'],
    ['supplies', { labourCents: 1, rate: '0.06', capCents: -1 }, 'field-invalid', '"capCents"'],
    ['supplies', { labourCents: 1, rate: '0.06', floorCents: 0.5 }, 'field-invalid', '"floorCents"'],
    ['margin', {}, 'field-missing', '"markupPercent"'],
    ['margin', { markupPercent: true }, 'field-invalid', '"markupPercent"'],
    ['margin', { markupPercent: '50%' }, 'decimal-invalid', '"markupPercent"'],
    ['margin', { markupPercent: -100 }, 'markup-invalid', '"markupPercent"'],
    ['matrix', { costCents: 1 }, 'field-missing', '"bands"'],
    ['matrix', { bands: [], costCents: 1 }, 'field-invalid', '"bands"'],
    ['matrix', { bands: [[0, null, '2']], costCents: 0.5 }, 'field-invalid', '"costCents"'],
    ['matrix', { bands: [[0, null, '2']], costCents: 1, method: 'slab' }, 'field-invalid', '"method"'],
    ['matrix', { bands: [[5, null, '2']], costCents: 1 }, 'field-invalid', '"bands[0]"'],
    ['matrix', { bands: [[0, null, 2]], costCents: 1 }, 'field-invalid', '"bands[0]"'],
    ['matrix', { bands: [[0, null, 'x']], costCents: 1 }, 'decimal-invalid', '"bands[0]"'],
    ['matrix', { bands: [[0, 9, '2']], costCents: 1 }, 'field-invalid', '"bands[0]"'],
    [
      'matrix',
      {
        bands: [
          [0, 900, '2'],
          [1000, null, '1.5'],
        ],
        costCents: 1,
      },
      'field-invalid',
      '"bands[0]" must end where the next band starts',
    ],
    [
      'matrix',
      {
        bands: [
          [0, 0, '2'],
          [0, null, '1'],
        ],
        costCents: 1,
      },
      'field-invalid',
      '"bands[1]"',
    ],
    ['wilson', { x: 1, n: 0 }, 'field-invalid', '"n"'],
    ['wilson', { x: 1, n: -3 }, 'field-invalid', '"n"'],
    ['wilson', { x: 4, n: 3 }, 'field-invalid', '"x"'],
    ['wilson', { x: 1, n: 3, confidence: 1 }, 'field-invalid', '"confidence"'],
    ['wilson', { x: 1, n: 3, confidence: '0.9' }, 'field-invalid', '"confidence"'],
  ])('%s refuses %j', (name, element, code, named) => {
    const error = refusal(name, element);
    expect(error.code).toBe(code);
    expect(error.message).toContain(named);
  });

  it('everything that is wrong is said at once, and once', () => {
    expect(refusal('tax', { amount: 5, rate: 'x' }).message).toBe(
      '"amount" must be a text in double quotes. "rate": Write a plain decimal number such as "10.05": digits, one point, no separators.',
    );
    expect(refusal('wilson', { x: 4, n: 'many' }).message).toBe(
      '"n" must be a whole number of at least 1, without quotes.',
    );
  });

  it.each(COMPUTATIONS.map(({ name }) => [name]))(
    '%s takes no number, text, list or nothing for an element',
    (name) => {
      for (const element of [null, 7, 'text', true, [], [{}]]) {
        const { code, message } = refusal(name, element);
        expect(code).toBe('not-an-object');
        expect(message).toBe('An element must be an object such as {"name": value}.');
      }
    },
  );

  it('a bad element spoils none beside it', () => {
    expect(calc('hours', { minutes: 7 }, 'seven', { minutes: 57 })).toMatchObject([
      { tenths: '0.1' },
      { error: { code: 'not-an-object' } },
      { tenths: '1.0' },
    ]);
  });

  it('any JSON at all gets one answer per element', () => {
    const field = fc.constantFrom(
      'input',
      'modelYear',
      'cents',
      'weights',
      'amount',
      'rate',
      'lines',
      'punch',
      'x',
      'n',
      'chosen',
      'labourCents',
      'markupPercent',
      'bands',
      'costCents',
    );
    const element = fc.oneof(fc.jsonValue(), fc.dictionary(field, fc.jsonValue()));
    fc.assert(
      fc.property(
        fc.constantFrom(...COMPUTATIONS),
        fc.array(element, { maxLength: 4 }),
        ({ name }, elements) => {
          calc(name, ...elements);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
