import type { SetsQuestion } from '#libs/choice';
import { NOTHING_AGREED } from '#libs/estimate';
import { bookHundredths, cents } from '#libs/kernel';
import type { SetsSolver } from '#server/modules/estimates/solving/sets-solver';

/** The built class, which has its thread's file beside it. */
async function builtSolver(): Promise<SetsSolver> {
  const built = new URL('../../dist/apps/server/modules/estimates/solving/sets-solver.js', import.meta.url);
  const { SetsSolver: Built } = (await import(built.href)) as { SetsSolver: new () => SetsSolver };
  return new Built();
}

describe('the thread that finds sets', () => {
  const question: SetsQuestion = {
    lines: ['brakes', 'hose'].map((id) => ({
      id,
      benefit: 10,
      mustInclude: false,
      requires: [],
      excludes: [],
    })),
    terms: {
      lines: ['brakes', 'hose'].map((id) => ({
        id,
        rateId: 'general',
        rateCentsPerHour: cents(10_000),
        steps: [{ step: `step of ${id}`, position: 'front', hundredths: bookHundredths(100) }],
        items: [],
      })),
      given: NOTHING_AGREED,
      policy: { taxes: [], taxRounding: 'invoice', supplies: null },
    },
    approved: [],
    budgetCents: cents(10_000),
    notToBeDriven: false,
  };

  it('answers, breaks on a question that makes no sense, and is there again for the next one', async () => {
    const solver = await builtSolver();
    try {
      const first = await solver.solve(question);
      expect(first).toMatchObject({
        ok: true,
        value: { sets: [{ priceCents: 10_000 }], ladder: { proven: true } },
      });
      const broken = { ...question, terms: { ...question.terms, lines: null } } as unknown as SetsQuestion;
      await expect(solver.solve(broken)).rejects.toThrow(/null/);
      const next = await solver.solve({ ...question, budgetCents: cents(20_000) });
      expect(next).toMatchObject({ ok: true, value: { sets: [{ priceCents: 20_000 }] } });
    } finally {
      await solver.onModuleDestroy();
    }
  });

  it('turns away what comes when many wait, and not those who wait', async () => {
    const solver = await builtSolver();
    try {
      const asked = Array.from({ length: 40 }, (_, at) =>
        solver.solve({ ...question, budgetCents: cents(9000 + at) }),
      );
      const answers = await Promise.all(asked);
      const codes = answers.map((answer) => (answer.ok ? 'ok' : answer.fault.code));
      expect([...new Set(codes)].sort()).toEqual(['ok', 'too-many-requests']);
      expect(codes.indexOf('too-many-requests')).toBeGreaterThan(10);
      expect(codes.slice(0, codes.indexOf('too-many-requests'))).not.toContain('too-many-requests');
      // What was turned away was not remembered as an answer.
      expect(await solver.solve({ ...question, budgetCents: cents(9039) })).toMatchObject({ ok: true });
    } finally {
      await solver.onModuleDestroy();
    }
  });
});
