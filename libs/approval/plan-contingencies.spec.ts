import fc from 'fast-check';
import { cents } from '#libs/kernel';
import { contingencyState } from './contingency-answer.js';
import type { OfferedContingency } from './contingency-answer.js';
import { contingentCents } from './contingent-cents.js';
import { planContingencies } from './plan-contingencies.js';
import type { ContingenciesInput } from './plan-contingencies.js';

const nut = (over: Partial<OfferedContingency> = {}): OfferedContingency => ({
  id: 'nut',
  lineId: 'hose',
  capCents: cents(12_000),
  agreed: null,
  triggered: false,
  ...over,
});
const plan = (offered: OfferedContingency[], over: Partial<ContingenciesInput> = {}) =>
  planContingencies({ offered, answers: [], approved: new Set(['hose']), ...over });
const yes = [{ contingencyId: 'nut', agreed: true }];
const askFirst = [{ contingencyId: 'nut', agreed: false }];
const codeOf = (result: ReturnType<typeof plan>): string => (result.ok ? 'ok' : result.fault.code);

describe('an owner who is asked about a contingency', () => {
  it('agrees to it up to its cap, together with its line', () => {
    expect(plan([nut()], { answers: yes })).toEqual({
      ok: true,
      value: [{ contingencyId: 'nut', lineId: 'hose', agreed: true, capCents: 12_000, because: 'answered' }],
    });
  });

  it('cannot agree to it without the line, whether that was declined or never answered', () => {
    expect(codeOf(plan([nut()], { answers: yes, approved: new Set() }))).toBe('contingency-without-line');
  });

  it('may want to be asked first, which is recorded too and is never a yes', () => {
    const planned = plan([nut()], { answers: askFirst });
    expect(planned).toMatchObject({ ok: true, value: [{ agreed: false }] });
    expect(plan([nut()])).toEqual({ ok: true, value: [] });
  });

  it('who says the same again adds nothing', () => {
    expect(plan([nut({ agreed: true })], { answers: yes })).toEqual({ ok: true, value: [] });
    expect(plan([nut({ agreed: false })], { answers: askFirst })).toEqual({ ok: true, value: [] });
    expect(plan([nut({ agreed: true, triggered: true })], { answers: yes })).toEqual({ ok: true, value: [] });
  });

  it('may change their mind in both ways until it has happened', () => {
    expect(plan([nut({ agreed: true })], { answers: askFirst })).toMatchObject({
      value: [{ agreed: false, because: 'answered' }],
    });
    expect(plan([nut({ agreed: false })], { answers: yes })).toMatchObject({ value: [{ agreed: true }] });
    expect(codeOf(plan([nut({ agreed: true, triggered: true })], { answers: askFirst }))).toBe(
      'contingency-triggered',
    );
  });

  it('who gives up the line has given up what was agreed to on it', () => {
    expect(plan([nut({ agreed: true })], { approved: new Set() })).toMatchObject({
      value: [{ contingencyId: 'nut', agreed: false, because: 'line-given-up' }],
    });
    expect(plan([nut({ agreed: false })], { approved: new Set() })).toEqual({ ok: true, value: [] });
    expect(codeOf(plan([nut({ agreed: true, triggered: true })], { approved: new Set() }))).toBe(
      'contingency-triggered',
    );
  });

  it('cannot answer one that was not offered, and then nothing at all is recorded', () => {
    const answers = [...yes, { contingencyId: 'other', agreed: true }];
    expect(plan([nut()], { answers })).toMatchObject({
      ok: false,
      fault: { code: 'contingency-not-in-revision', facts: { contingencyIds: ['other'] } },
    });
  });
});

describe('what may still come on top', () => {
  it('is the sum of the agreed caps of what has not happened', () => {
    const some = [
      nut({ agreed: true }),
      nut({ agreed: true, triggered: true, capCents: cents(500) }),
      nut({ agreed: false, capCents: cents(70) }),
      nut({ agreed: null, capCents: cents(9) }),
      nut({ agreed: true, capCents: cents(3000) }),
    ];
    expect(contingentCents(some)).toBe(15_000);
    expect(some.map(contingencyState)).toEqual(['agreed', 'triggered', 'refused', 'proposed', 'agreed']);
  });
});

const offeredBy = fc
  .array(
    fc.record({
      lineId: fc.constantFrom('a', 'b', 'c'),
      capCents: fc.nat(50_000).map(cents),
      agreed: fc.constantFrom(null, true, false),
      triggered: fc.boolean(),
    }),
    { maxLength: 6 },
  )
  .map((all) =>
    all.map((one, at): OfferedContingency => ({
      ...one,
      id: `c${at}`,
      triggered: one.triggered && one.agreed === true,
    })),
  );

/** What counts once the plan is recorded. */
function after(offered: readonly OfferedContingency[], planned: ReturnType<typeof planContingencies>) {
  if (!planned.ok) return offered;
  const now = new Map(planned.value.map(({ contingencyId, agreed }) => [contingencyId, agreed]));
  return offered.map((one) => ({ ...one, agreed: now.get(one.id) ?? one.agreed }));
}

describe('any sitting of answers', () => {
  const sittings = offeredBy.chain((offered) =>
    fc.record({
      offered: fc.constant(offered),
      approved: fc.subarray(['a', 'b', 'c']).map((lines) => new Set(lines)),
      answers: fc
        .tuple(...offered.map(() => fc.constantFrom(undefined, true, false)))
        .map((all) =>
          all.flatMap((agreed, at) => (agreed === undefined ? [] : [{ contingencyId: `c${at}`, agreed }])),
        ),
    }),
  );

  it('leaves nothing agreed to without its line, adds nothing when repeated, and never makes a yes of silence', () => {
    fc.assert(
      fc.property(sittings, (input) => {
        const planned = planContingencies(input);
        const then = after(input.offered, planned);
        if (!planned.ok) return;
        expect(then.filter((one) => one.agreed === true && !input.approved.has(one.lineId))).toEqual([]);
        expect(planContingencies({ ...input, offered: then })).toEqual({ ok: true, value: [] });
        const asked = new Set(input.answers.map(({ contingencyId }) => contingencyId));
        const silent = planned.value.filter(({ contingencyId }) => !asked.has(contingencyId));
        expect(silent.every(({ agreed }) => !agreed)).toBe(true);
        const caps = then.reduce((sum, { agreed, capCents }) => sum + (agreed === true ? capCents : 0), 0);
        expect(contingentCents(then)).toBeLessThanOrEqual(caps);
      }),
      { numRuns: 2000 },
    );
  });
});
