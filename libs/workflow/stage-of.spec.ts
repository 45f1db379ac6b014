import fc from 'fast-check';
import { STAGES, stageOf } from './stage-of.js';
import type { RepairOrderFacts, Stage } from './stage-of.js';
import { WORK_ORDER_STATES } from './work-order-moves.js';

const NOTHING: RepairOrderFacts = {
  inspection: 'none',
  openFindings: 0,
  unsentLines: 0,
  undecidedLines: 0,
  decidedLines: 0,
  workOrders: [],
  pickedUp: false,
};

const someFacts = fc.record<RepairOrderFacts>({
  inspection: fc.constantFrom('none', 'started', 'completed'),
  openFindings: fc.nat(2),
  unsentLines: fc.nat(2),
  undecidedLines: fc.nat(2),
  decidedLines: fc.nat(2),
  workOrders: fc.array(fc.constantFrom(...WORK_ORDER_STATES), { maxLength: 4 }),
  pickedUp: fc.boolean(),
});

describe('where a repair order stands', () => {
  it('follows one car from drop-off to pick-up', () => {
    const story: [Partial<RepairOrderFacts>, Stage][] = [
      [{}, 'dropped-off'],
      [{ inspection: 'started' }, 'inspecting'],
      [{ openFindings: 1 }, 'inspecting'],
      [{ inspection: 'completed', openFindings: 3 }, 'estimating'],
      [{ openFindings: 1, unsentLines: 2 }, 'estimating'],
      [{ openFindings: 0, unsentLines: 0, undecidedLines: 3 }, 'awaiting-decision'],
      [{ undecidedLines: 1, decidedLines: 2, workOrders: ['released'] }, 'on-the-floor'],
      [{ workOrders: ['finished'] }, 'awaiting-decision'],
      [{ undecidedLines: 0, decidedLines: 3 }, 'checking'],
      [{ unsentLines: 1 }, 'estimating'],
      [{ unsentLines: 0, undecidedLines: 1 }, 'awaiting-decision'],
      [{ undecidedLines: 0, decidedLines: 4, workOrders: ['finished', 'claimed'] }, 'on-the-floor'],
      [{ workOrders: ['checked', 'finished'] }, 'checking'],
      [{ workOrders: ['checked', 'checked'] }, 'ready'],
      [{ pickedUp: true }, 'picked-up'],
    ];
    let facts = NOTHING;
    for (const [change, stage] of story) {
      facts = { ...facts, ...change };
      expect([change, stageOf(facts)]).toEqual([change, stage]);
    }
  });

  it('is ready when the owner declined everything', () => {
    expect(stageOf({ ...NOTHING, inspection: 'completed', decidedLines: 5 })).toBe('ready');
    expect(stageOf({ ...NOTHING, decidedLines: 1, workOrders: ['withdrawn'] })).toBe('ready');
  });

  it('is ready when a complete inspection found nothing', () => {
    expect(stageOf({ ...NOTHING, inspection: 'completed' })).toBe('ready');
  });

  it('is being estimated when work was asked for without an inspection', () => {
    expect(stageOf({ ...NOTHING, unsentLines: 1 })).toBe('estimating');
  });

  it('is never ready with work, a question or a check still open', () => {
    fc.assert(
      fc.property(someFacts, (facts) => {
        const stage = stageOf(facts);
        expect(STAGES).toContain(stage);
        if (facts.pickedUp) expect(stage).toBe('picked-up');
        if (stage !== 'ready') return;
        expect(facts.undecidedLines + facts.unsentLines).toBe(0);
        expect(facts.inspection).not.toBe('started');
        expect(facts.workOrders.every((state) => state === 'checked' || state === 'withdrawn')).toBe(true);
      }),
      { numRuns: 5000 },
    );
  });

  it('does not depend on the order of the work orders nor on withdrawn ones', () => {
    fc.assert(
      fc.property(someFacts, (facts) => {
        const stage = stageOf(facts);
        expect(stageOf({ ...facts, workOrders: [...facts.workOrders].reverse() })).toBe(stage);
        expect(
          stageOf({ ...facts, workOrders: facts.workOrders.filter((state) => state !== 'withdrawn') }),
        ).toBe(stage);
      }),
      { numRuns: 2000 },
    );
  });
});
