import fc from 'fast-check';
import { move } from './move.js';
import { WORK_ORDER_EVENTS, WORK_ORDER_MOVES, WORK_ORDER_STATES } from './work-order-moves.js';
import type { WorkOrderEvent, WorkOrderState } from './work-order-moves.js';
import { workOrderState } from './work-order-state.js';
import type { WorkOrderFacts } from './work-order-state.js';

// Every pair, written by hand a second time. Columns: claim, give-back, clock-on, clock-off, finish, check, send-back,
// withdraw; a dash is a refusal.
const EXPECTED: Readonly<Record<WorkOrderState, string>> = {
  released: 'claimed - - - - - - withdrawn',
  claimed: '- released on-the-clock - - - - withdrawn',
  'on-the-clock': '- - - paused finished - - -',
  paused: '- released on-the-clock - finished - - -',
  finished: '- - - - - checked paused -',
  checked: '- - - - - - - -',
  withdrawn: '- - - - - - - -',
};

const NEW: WorkOrderFacts = {
  withdrawn: false,
  claimed: false,
  clockedSinceClaim: false,
  onTheClock: false,
  finished: false,
  checked: false,
};

/** What each event stores; the state must follow from it alone. */
const STORED: Readonly<Record<WorkOrderEvent, Partial<WorkOrderFacts>>> = {
  claim: { claimed: true, clockedSinceClaim: false },
  'give-back': { claimed: false, clockedSinceClaim: false },
  'clock-on': { onTheClock: true, clockedSinceClaim: true },
  'clock-off': { onTheClock: false },
  finish: { onTheClock: false, finished: true },
  check: { checked: true },
  'send-back': { finished: false },
  withdraw: { withdrawn: true },
};

describe('moving a work order', () => {
  it('allows exactly the pairs of state and event that the shop agreed on', () => {
    const table = Object.fromEntries(
      WORK_ORDER_STATES.map((state) => [
        state,
        WORK_ORDER_EVENTS.map((event) => {
          const moved = move(state, event);
          return moved.ok ? moved.value : '-';
        }).join(' '),
      ]),
    );
    expect(table).toEqual(EXPECTED);
  });

  it('says what is possible instead when it refuses', () => {
    expect(move('released', 'clock-on')).toMatchObject({
      ok: false,
      fault: { code: 'move-not-allowed', facts: { possible: ['claim', 'withdraw'] } },
    });
    expect(move('checked', 'claim')).toMatchObject({ ok: false, fault: { facts: { possible: [] } } });
  });

  it('can reach an end from every state, and every state from the start', () => {
    const reachable = (from: WorkOrderState): Set<WorkOrderState> => {
      const seen = new Set([from]);
      for (const state of seen) for (const next of Object.values(WORK_ORDER_MOVES[state])) seen.add(next);
      return seen;
    };
    for (const state of WORK_ORDER_STATES) {
      expect([...reachable(state)].some((end) => end === 'checked' || end === 'withdrawn')).toBe(true);
    }
    expect([...reachable('released')].sort()).toEqual([...WORK_ORDER_STATES].sort());
  });

  it('agrees at every step with the state that is derived from the stored facts', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...WORK_ORDER_EVENTS), { maxLength: 40 }), (events) => {
        let facts = NEW;
        let state = workOrderState(facts);
        expect(state).toBe('released');
        for (const event of events) {
          const moved = move(state, event);
          if (!moved.ok) continue;
          facts = { ...facts, ...STORED[event] };
          state = workOrderState(facts);
          expect(state).toBe(moved.value);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('gives every combination of facts a state, with ends outranking everything before them', () => {
    const keys = Object.keys(NEW) as (keyof WorkOrderFacts)[];
    for (let bits = 0; bits < 2 ** keys.length; bits += 1) {
      const facts = Object.fromEntries(
        keys.map((key, at) => [key, (bits >> at) % 2 === 1]),
      ) as unknown as WorkOrderFacts;
      const state = workOrderState(facts);
      if (facts.withdrawn) expect(state).toBe('withdrawn');
      else if (facts.checked) expect(state).toBe('checked');
      else if (facts.finished) expect(state).toBe('finished');
      else expect(['released', 'claimed', 'paused', 'on-the-clock']).toContain(state);
    }
  });
});
