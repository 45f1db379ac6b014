import fc from 'fast-check';
import { floorOf, yearOf } from '../../test/builders/what-if.js';
import { compareWhatIfs, FIGURES, type Figures } from './index.js';

const quick = { patience: 10, gapMinutes: null, mostOrders: 8 };

describe('how sure a difference is', () => {
  it('never says that less than nothing or more than all would be so', () => {
    let cut = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 60 }), (technicians, seed) => {
        const compared = compareWhatIfs(
          floorOf(3, technicians),
          yearOf(2 * technicians, 2),
          [{ name: 'one more', changes: [{ kind: 'technician', like: 'technician 1' }] }],
          { seeds: [seed, seed + 100, seed + 200], effort: quick },
        );
        if (!compared.ok) throw new Error(compared.fault.detail);
        const { base, alternatives } = compared.value;
        const [{ differences }] = alternatives as [(typeof alternatives)[number]];
        for (const figure of FIGURES) {
          const { mean, bounds } = differences[figure];
          if (bounds === null) throw new Error('three years have an interval');
          const all = isShare(figure) ? 100 : Infinity;
          expect(base[figure] + bounds.lo).toBeGreaterThan(-1e-9);
          expect(base[figure] + bounds.hi).toBeLessThan(all + 1e-9);
          expect(bounds.lo).toBeLessThanOrEqual(mean);
          expect(bounds.hi).toBeGreaterThanOrEqual(mean);
          if (isShare(figure) && Math.abs(base[figure] + bounds.hi - 100) < 1e-9) cut++;
        }
      }),
      { numRuns: 12, examples: [[1, 1]] },
    );
    expect(cut).toBeGreaterThan(0);
  });
});

const isShare = (figure: keyof Figures): boolean => figure.endsWith('Percent');
