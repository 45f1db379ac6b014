/** Where a work order stands. `checked` and `withdrawn` are ends. */
export const WORK_ORDER_STATES = [
  'released',
  'claimed',
  'on-the-clock',
  'paused',
  'finished',
  'checked',
  'withdrawn',
] as const;
export type WorkOrderState = (typeof WORK_ORDER_STATES)[number];

/** What can happen to a work order. */
export const WORK_ORDER_EVENTS = [
  'claim',
  'give-back',
  'clock-on',
  'clock-off',
  'finish',
  'check',
  'send-back',
  'withdraw',
] as const;
export type WorkOrderEvent = (typeof WORK_ORDER_EVENTS)[number];

/**
 * The moves that are allowed; everything else is refused. Worth knowing:
 * - `withdraw` (the owner changed their mind) is possible until somebody is on the clock; that work had begun before
 *   a work order was given back is for the approval rules to refuse, which see the clock entries;
 * - `finish` from the clock also closes the open clock entry, in the same transaction;
 * - `send-back` (the check found something) returns it to the technician who holds it, off the clock;
 * - nobody gives back or finishes without having claimed, so there is always somebody to ask.
 */
export const WORK_ORDER_MOVES: Readonly<
  Record<WorkOrderState, Readonly<Partial<Record<WorkOrderEvent, WorkOrderState>>>>
> = {
  released: { claim: 'claimed', withdraw: 'withdrawn' },
  claimed: { 'clock-on': 'on-the-clock', 'give-back': 'released', withdraw: 'withdrawn' },
  'on-the-clock': { 'clock-off': 'paused', finish: 'finished' },
  paused: { 'clock-on': 'on-the-clock', 'give-back': 'released', finish: 'finished' },
  finished: { check: 'checked', 'send-back': 'paused' },
  checked: {},
  withdrawn: {},
};
