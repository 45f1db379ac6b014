import { fail, type Failed, type Fault } from '#libs/kernel';
import { problem } from '../../../platform/http/problem-error.js';

export function lockedFault(until: Date, at: Date): Failed<Fault<'sign-in-locked'>> {
  const seconds = Math.max(1, Math.ceil((until.getTime() - at.getTime()) / 1000));
  return fail(
    'sign-in-locked',
    `Too many wrong attempts. Try again in ${Math.ceil(seconds / 60)} minutes, or ask a manager.`,
    { facts: { retryAfterSeconds: seconds } },
  );
}

/** Says the same whether the person, the secret or both are wrong. */
export const passwordWrong = (): Failed<Fault<'sign-in-failed'>> =>
  fail('sign-in-failed', 'E-mail and password do not belong together. Check both, also for capital letters.');

export const pinWrong = (): Failed<Fault<'sign-in-failed'>> =>
  fail('sign-in-failed', 'That PIN is not right. A manager can set a new one.');

export const sessionEnded = (): Failed<Fault<'session-ended'>> =>
  fail('session-ended', 'This session has ended. Sign in again; nothing is lost.');

export const deviceUnknown = (): Failed<Fault<'device-unknown'>> =>
  fail('device-unknown', 'This tablet is not enrolled, or not any more. A manager can enrol it again.');

/** The wrong attempt was counted and committed before; the refusal comes after. */
export function presentPasswordRight({ isSet }: { readonly isSet: boolean }): void {
  if (isSet) return;
  const detail = 'This is not your present password.';
  throw problem('request-invalid', detail, { fields: [{ pointer: '/currentPassword', detail }] });
}
