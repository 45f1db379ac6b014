import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import type { OfferedContingency } from './contingency-answer.js';

export interface TriggerInput {
  /** In the owner's words. */
  readonly what: string;
  readonly agreed: OfferedContingency['agreed'];
  readonly triggered: boolean;
  readonly lineApproved: boolean;
  /** Somebody has clocked on the line's work order, or it is finished. */
  readonly workBegun: boolean;
  /** The work was looked over and is closed. */
  readonly workChecked: boolean;
  /** Whether this person holds the work order, somebody else does, or nobody. */
  readonly heldBy: 'this-person' | 'somebody-else' | 'nobody';
  /** Front desk and manager may say it for whoever is at the car. */
  readonly mayForOthers: boolean;
}

export type TriggerFault = Fault<
  | 'contingency-triggered'
  | 'contingency-not-agreed'
  | 'work-not-authorised'
  | 'work-not-begun'
  | 'work-order-not-held'
  | 'work-order-state'
>;

const FURTHER = 'Put it into a further revision and send that to the owner';

/** Whether a contingency may be charged now. Each refusal names what to do instead. */
export function mayTrigger(input: TriggerInput): Result<void, TriggerFault> {
  const { what } = input;
  if (input.triggered)
    return fail('contingency-triggered', `"${what}" was told before and is charged once, whatever happens.`);
  if (!input.lineApproved)
    return fail('work-not-authorised', `The owner has not approved the line of "${what}". ${FURTHER}.`);
  if (input.agreed !== true)
    return fail(
      'contingency-not-agreed',
      input.agreed === null
        ? `The owner has not agreed to "${what}" in advance. ${FURTHER}, or record what they say by phone.`
        : `About "${what}" the owner wants to be asked first. ${FURTHER}, or record what they say by phone.`,
    );
  if (input.workChecked) return fail('work-order-state', `The work was checked and is closed. ${FURTHER}.`);
  if (!input.workBegun)
    return fail('work-not-begun', `Work has not begun, so "${what}" cannot have happened. Clock on first.`);
  if (input.heldBy !== 'this-person' && !input.mayForOthers)
    return fail(
      'work-order-not-held',
      input.heldBy === 'nobody'
        ? 'Nobody holds this work order. Claim it, or ask the front desk to tell it.'
        : 'Somebody else holds this work order, so they, the front desk or a manager tell it.',
    );
  return ok(undefined);
}
