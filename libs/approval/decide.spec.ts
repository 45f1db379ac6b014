import fc from 'fast-check';
import { ANSWERS } from './decision.js';
import type { Answer } from './decision.js';
import { decide } from './decide.js';

const anAnswer = fc.constantFrom(...ANSWERS);

/** Runs answers through `decide` the way the server does, and returns what is recorded in the end. */
function recorded(answers: readonly Answer[], begunFrom: number): Answer[] {
  const log: Answer[] = [];
  answers.forEach((incoming, at) => {
    const outcome = decide({ current: log.at(-1) ?? null, incoming, workBegun: at >= begunFrom });
    if (outcome.ok && outcome.value === 'record') log.push(incoming);
  });
  return log;
}

describe('deciding on a line', () => {
  it('records the first answer, whatever it is', () => {
    for (const incoming of ANSWERS) {
      expect(decide({ current: null, incoming, workBegun: false })).toEqual({ ok: true, value: 'record' });
    }
  });

  it('walks every pair of answers before and after work has begun', () => {
    for (const current of ANSWERS) {
      for (const incoming of ANSWERS) {
        const same = current === incoming;
        const before = decide({ current, incoming, workBegun: false });
        expect(before).toEqual({ ok: true, value: same ? 'repeat' : 'record' });
        const after = decide({ current, incoming, workBegun: true });
        if (same) expect(after).toEqual({ ok: true, value: 'repeat' });
        else expect(after).toMatchObject({ ok: false, fault: { code: 'work-already-begun' } });
      }
    }
  });

  it('takes a yes to another figure as a new agreement, but only before work begins', () => {
    const again = { current: 'approved', incoming: 'approved', figureChanged: true } as const;
    expect(decide({ ...again, workBegun: false })).toEqual({ ok: true, value: 'record' });
    expect(decide({ ...again, workBegun: true })).toEqual({ ok: true, value: 'repeat' });
  });

  it('changes nothing when the same answers are sent again', () => {
    fc.assert(
      fc.property(fc.array(anAnswer, { minLength: 1, maxLength: 12 }), fc.nat(15), (answers, begunFrom) => {
        const log = recorded(answers, begunFrom);
        const last = log.at(-1) as Answer;
        for (const workBegun of [false, true]) {
          expect(decide({ current: last, incoming: last, workBegun })).toEqual({ ok: true, value: 'repeat' });
        }
        const doubled = answers.flatMap((answer) => [answer, answer]);
        expect(recorded(doubled, begunFrom * 2)).toEqual(log);
      }),
      { numRuns: 2000 },
    );
  });

  it('lets the last answer win until work begins, and freezes it then', () => {
    fc.assert(
      fc.property(fc.array(anAnswer, { minLength: 1, maxLength: 12 }), fc.nat(12), (answers, begunFrom) => {
        const decisive = answers.slice(0, Math.max(begunFrom, 1));
        expect(recorded(answers, begunFrom).at(-1)).toBe(decisive.at(-1));
      }),
      { numRuns: 2000 },
    );
  });
});
