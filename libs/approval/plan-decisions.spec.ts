import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { agreedFrom, carriedSteps, priceChoice } from '#libs/estimate';
import type { AgreedLine, ChoicePrice, EstimateLine, PricingPolicy } from '#libs/estimate';
import { authorisedCents } from './authorised-cents.js';
import { chosenAfter } from './chosen-after.js';
import { ANSWERS } from './decision.js';
import { isRepeat } from './is-repeat.js';
import { planDecisions } from './plan-decisions.js';
import type { PlannedDecision } from './plan-decisions.js';
import type { GivenAnswer, StandingDecision } from './standing-decision.js';

const POLICY: PricingPolicy = {
  taxes: [{ name: 'sales tax', ratePpm: ppm(72_500), on: ['part', 'supplies'] }],
  taxRounding: 'invoice',
  supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) },
};

const line = (id: string, steps: Record<string, number>, partCents = 0): EstimateLine => ({
  id,
  steps: Object.entries(steps).map(([step, hours]) => ({
    step,
    position: 'front',
    hundredths: bookHundredths(hours),
  })),
  rateId: 'general',
  rateCentsPerHour: cents(10_000),
  items:
    partCents === 0
      ? []
      : [
          {
            id: `${id} part`,
            kind: 'part',
            quantityHundredths: 100,
            unitPriceCents: cents(partCents),
            coreCents: cents(500),
          },
        ],
});

/** One owner and one revision: answers go in the way the server does it, work begins on lines in between. */
class Ledger {
  readonly log: StandingDecision[] = [];
  readonly standing = new Map<string, StandingDecision>();
  readonly begun = new Set<string>();
  private readonly carried = new Map<string, AgreedLine>();

  constructor(readonly lines: readonly EstimateLine[]) {}

  price(chosen: readonly string[]): ChoicePrice {
    const given = agreedFrom([...this.begun].flatMap((id) => this.carried.get(id) ?? []));
    const open = this.lines.filter(({ id }) => !this.begun.has(id));
    const price = priceChoice({ lines: open, chosen, given, policy: POLICY });
    if (!price.ok) throw new Error(price.fault.detail);
    return price.value;
  }

  answer(answers: readonly GivenAnswer[]): readonly PlannedDecision[] | 'refused' {
    const { standing, begun } = this;
    const chosen = chosenAfter({ answers, standing, begun });
    const price = this.price(chosen);
    const planned = planDecisions({ answers, standing, begun, price });
    if (!planned.ok) return 'refused';
    const given = agreedFrom([...begun].flatMap((id) => this.carried.get(id) ?? []));
    const carried = carriedSteps(this.lines, chosen, given);
    for (const { lineId, answer, shown, lookAgainOn } of planned.value) {
      const decision = { lineId, answer, lookAgainOn, ...shown };
      this.log.push(decision);
      standing.set(lineId, decision);
      if (answer !== 'approved') this.carried.delete(lineId);
      else
        this.carried.set(lineId, {
          steps: carried.get(lineId) ?? [],
          labourCents: shown.shownLabourCents,
          suppliesCents: shown.shownSuppliesCents,
        });
    }
    return planned.value;
  }
}

const yes = (...ids: string[]): GivenAnswer[] => ids.map((lineId) => ({ lineId, answer: 'approved' }));
const no = (...ids: string[]): GivenAnswer[] => ids.map((lineId) => ({ lineId, answer: 'declined' }));

describe('recording answers', () => {
  const lines = [
    line('brakes', { 'wheel off': 40, brakes: 100 }, 20_000),
    line('strut', { 'wheel off': 40, strut: 150 }),
  ];

  it('shows a declined line with what it costs alone, and releases only what is approved', () => {
    const ledger = new Ledger(lines);
    // By hand at 100.00 an hour: 1.40 h = 140.00, supplies 8.40, part 200.00 + deposit 5.00, tax 7.25 % of 213.40 = 15.47.
    expect(ledger.answer([...yes('brakes'), ...no('strut')])).toEqual([
      {
        lineId: 'brakes',
        answer: 'approved',
        because: 'answered',
        floor: 'release',
        lookAgainOn: null,
        shown: {
          shownHundredths: 140,
          shownLabourCents: 14_000,
          shownPartsCents: 20_500,
          shownSuppliesCents: 840,
          shownTaxCents: 1547,
          shownTotalCents: 36_887,
        },
      },
      expect.objectContaining({ lineId: 'strut', answer: 'declined', floor: 'nothing' }),
    ]);
    expect(ledger.log[1]?.shownHundredths).toBe(190);
  });

  it('agrees anew on a line whose share of the dismantling changes with a further yes, and with a changed mind', () => {
    const ledger = new Ledger(lines);
    ledger.answer(yes('brakes'));
    const second = ledger.answer(yes('strut')) as PlannedDecision[];
    expect(second.map(({ lineId, because, shown }) => [lineId, because, shown.shownHundredths])).toEqual([
      ['brakes', 'choice-changed', 120],
      ['strut', 'answered', 170],
    ]);
    const third = ledger.answer(no('strut')) as PlannedDecision[];
    expect(third.map(({ lineId, answer, because, floor }) => [lineId, answer, because, floor])).toEqual([
      ['brakes', 'approved', 'choice-changed', 'release'],
      ['strut', 'declined', 'answered', 'withdraw'],
    ]);
    expect(ledger.standing.get('brakes')?.shownHundredths).toBe(140);
  });

  it('keeps the answer and the figure of a line on which work has begun, whatever follows', () => {
    const ledger = new Ledger(lines);
    ledger.answer(yes('brakes', 'strut'));
    const agreed = ledger.standing.get('brakes');
    ledger.begun.add('brakes');
    expect(ledger.answer([...no('brakes'), ...no('strut')])).toBe('refused');
    expect(ledger.log).toHaveLength(2);
    ledger.answer(no('strut'));
    expect(ledger.standing.get('brakes')).toBe(agreed);
    // The strut, chosen again, costs what it did: the other half of the wheel and its own hours.
    ledger.answer(yes('strut'));
    expect(ledger.standing.get('strut')?.shownHundredths).toBe(170);
  });

  it('records another day for a deferred line, and keeps the day that is not mentioned again', () => {
    const ledger = new Ledger(lines);
    const later = (lookAgainOn?: string | null): GivenAnswer[] => [
      { lineId: 'strut', answer: 'deferred', ...(lookAgainOn === undefined ? {} : { lookAgainOn }) },
    ];
    const recorded = (answers: GivenAnswer[]): unknown =>
      (ledger.answer(answers) as PlannedDecision[]).map(({ answer, lookAgainOn }) => [answer, lookAgainOn]);
    expect(recorded(later('2031-09-01'))).toEqual([['deferred', '2031-09-01']]);
    expect(recorded(later())).toEqual([]);
    expect(recorded(later('2031-09-01'))).toEqual([]);
    expect(recorded(later('2031-10-01'))).toEqual([['deferred', '2031-10-01']]);
    expect(recorded(later(null))).toEqual([['deferred', null]]);
  });

  it('knows a repeat by the total that was shown, also after work has begun', () => {
    const ledger = new Ledger(lines);
    const answers = yes('brakes', 'strut');
    ledger.answer(answers);
    const { standing, begun } = ledger;
    const total = authorisedCents(ledger.log);
    expect(isRepeat({ answers, standing, begun, expectedTotalCents: total })).toBe(true);
    expect(isRepeat({ answers, standing, begun, expectedTotalCents: total - 1 })).toBe(false);
    expect(isRepeat({ answers: no('strut'), standing, begun, expectedTotalCents: total })).toBe(false);
    begun.add('brakes');
    expect(isRepeat({ answers, standing, begun, expectedTotalCents: total })).toBe(true);
  });
});

describe('the sums of an owner who keeps changing their mind', () => {
  const hours = fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 4, maxLength: 4 });
  const uses = fc.array(fc.subarray([0, 1, 2, 3]), { minLength: 2, maxLength: 4 });
  const moves = fc.array(
    fc.record({
      answers: fc.uniqueArray(fc.record({ at: fc.nat(3), answer: fc.constantFrom(...ANSWERS) }), {
        selector: ({ at }) => at,
        minLength: 1,
      }),
      begin: fc.option(fc.nat(3), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 6 },
  );

  it('agree at every moment: what is authorised is what was shown for the choice and for what has begun', () => {
    fc.assert(
      fc.property(hours, uses, moves, (perStep, used, played) => {
        const ledger = new Ledger(
          used.map((steps, at) =>
            line(String(at), Object.fromEntries(steps.map((s) => [`step ${s}`, perStep[s] ?? 0])), 1000 * at),
          ),
        );
        for (const { answers, begin } of played) {
          const given = answers
            .filter(({ at }) => at < used.length)
            .map(({ at, answer }) => ({ lineId: String(at), answer }));
          const { standing, begun } = ledger;
          const before = [...begun].map((id) => standing.get(id));
          const chosen = chosenAfter({ answers: given, standing, begun });
          const shown = ledger.price(chosen).totals.totalCents;
          const rows = ledger.log.length;
          const outcome = ledger.answer(given);
          expect([...begun].map((id) => standing.get(id))).toEqual(before);
          if (outcome === 'refused') {
            expect(ledger.log).toHaveLength(rows);
          } else {
            const fixed = before.reduce((sum, decision) => sum + (decision?.shownTotalCents ?? 0), 0);
            expect(authorisedCents(ledger.log)).toBe(fixed + shown);
            // The same again changes nothing.
            expect(ledger.answer(given)).toEqual([]);
          }
          const starting = begin === undefined ? undefined : standing.get(String(begin));
          if (starting?.answer === 'approved') begun.add(starting.lineId);
        }
      }),
      { numRuns: 200 },
    );
  });
});
