import fc from 'fast-check';
import { cents } from '#libs/kernel';
import { ANSWERS } from './decision.js';
import type { Decision } from './decision.js';
import { authorisedCents } from './authorised-cents.js';

const decision = (lineId: string, answer: Decision['answer'], shown: number): Decision => ({
  lineId,
  answer,
  shownTotalCents: cents(shown),
});

const aLog = fc.array(
  fc
    .tuple(fc.constantFrom('a', 'b', 'c', 'd'), fc.constantFrom(...ANSWERS), fc.nat(500_000))
    .map(([lineId, answer, shown]) => decision(lineId, answer, shown)),
  { maxLength: 20 },
);

describe('the authorised amount', () => {
  it('is nothing before anybody has decided', () => {
    expect(authorisedCents([])).toBe(0);
  });

  it('counts approved lines at what was shown, and neither declined nor deferred ones', () => {
    // By hand: 412.50 + 88.13 are agreed; 190.00 is declined and 75.25 deferred.
    const log = [
      decision('brakes', 'approved', 41250),
      decision('struts', 'declined', 19000),
      decision('hose', 'approved', 8813),
      decision('mounts', 'deferred', 7525),
    ];
    expect(authorisedCents(log)).toBe(50063);
  });

  it('follows a changed mind, with the figure that was shown the second time', () => {
    const log = [
      decision('brakes', 'approved', 41250),
      decision('brakes', 'declined', 41250),
      decision('brakes', 'approved', 43900),
    ];
    expect(authorisedCents(log.slice(0, 1))).toBe(41250);
    expect(authorisedCents(log.slice(0, 2))).toBe(0);
    expect(authorisedCents(log)).toBe(43900);
  });

  it('changes only by the line that is decided on', () => {
    fc.assert(
      fc.property(aLog, fc.constantFrom(...ANSWERS), fc.nat(500_000), (log, answer, shown) => {
        const before = authorisedCents(log);
        const withoutLine = authorisedCents(log.filter((entry) => entry.lineId !== 'a'));
        const after = authorisedCents([...log, decision('a', answer, shown)]);
        expect(after).toBe(withoutLine + (answer === 'approved' ? shown : 0));
        expect(before).toBeGreaterThanOrEqual(withoutLine);
      }),
      { numRuns: 1000 },
    );
  });

  it('does not depend on how decisions on different lines are interleaved', () => {
    fc.assert(
      fc.property(aLog, (log) => {
        const byLine = ['d', 'b', 'a', 'c'].flatMap((id) => log.filter((entry) => entry.lineId === id));
        expect(authorisedCents(byLine)).toBe(authorisedCents(log));
      }),
      { numRuns: 1000 },
    );
  });
});
