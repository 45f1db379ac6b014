import fc from 'fast-check';
import { mayTrigger } from './may-trigger.js';
import type { TriggerInput } from './may-trigger.js';

const ready: TriggerInput = {
  what: 'The line nut seizes',
  agreed: true,
  triggered: false,
  lineApproved: true,
  workBegun: true,
  workChecked: false,
  heldBy: 'this-person',
  mayForOthers: false,
};
const codeOf = (over: Partial<TriggerInput>): string => {
  const result = mayTrigger({ ...ready, ...over });
  return result.ok ? 'ok' : result.fault.code;
};

describe('a technician who finds that it happened', () => {
  it('tells it on the work that they hold and have begun, once the owner has agreed', () => {
    expect(codeOf({})).toBe('ok');
  });

  it.each([
    [{ triggered: true }, 'contingency-triggered'],
    [{ lineApproved: false }, 'work-not-authorised'],
    [{ agreed: null }, 'contingency-not-agreed'],
    [{ agreed: false }, 'contingency-not-agreed'],
    [{ workChecked: true }, 'work-order-state'],
    [{ workBegun: false }, 'work-not-begun'],
    [{ heldBy: 'somebody-else' as const }, 'work-order-not-held'],
    [{ heldBy: 'nobody' as const }, 'work-order-not-held'],
    [{ heldBy: 'nobody' as const, mayForOthers: true }, 'ok'],
    [{ agreed: false, mayForOthers: true }, 'contingency-not-agreed'],
  ])('with %j: %s', (over, code) => {
    expect(codeOf(over)).toBe(code);
  });

  it('reads what to do instead: a further revision, or what the owner says by phone', () => {
    for (const agreed of [null, false]) {
      const result = mayTrigger({ ...ready, agreed });
      expect(result.ok ? '' : result.fault.detail).toMatch(/further revision.*, or record .* by phone/);
    }
  });

  it('never gets past an owner who has not agreed, whatever else is true', () => {
    const anything = fc.record({
      what: fc.string(),
      agreed: fc.constantFrom(null, true, false),
      triggered: fc.boolean(),
      lineApproved: fc.boolean(),
      workBegun: fc.boolean(),
      workChecked: fc.boolean(),
      heldBy: fc.constantFrom('this-person' as const, 'somebody-else' as const, 'nobody' as const),
      mayForOthers: fc.boolean(),
    });
    fc.assert(
      fc.property(anything, (input) => {
        const agreed = input.agreed === true && input.lineApproved && !input.triggered;
        const onTheJob = input.workBegun && !input.workChecked;
        const entitled = input.mayForOthers || input.heldBy === 'this-person';
        expect(mayTrigger(input).ok).toBe(agreed && onTheJob && entitled);
      }),
    );
  });
});
