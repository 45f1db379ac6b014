import type { ApiFault } from '../api/fault.js';

/** How long to wait, in words. */
function waitWords(seconds: number | undefined): string {
  if (seconds === undefined) return 'Wait some minutes, then try again.';
  if (seconds < 90) return `Try again in ${Math.ceil(seconds)} seconds.`;
  return `Try again in ${Math.ceil(seconds / 60)} minutes.`;
}

/** Why a sign-in did not work and what helps. Never says which of the two was wrong. */
export function signInWords(fault: ApiFault, by: 'password' | 'pin'): { title: string; detail: string } {
  if (fault.status === 0)
    return {
      title: 'The server does not answer.',
      detail: 'Check the network of this device, then try again.',
    };
  if (fault.status === 429 || fault.status === 423 || fault.code.includes('locked')) {
    const ask = by === 'pin' ? 'Or sign in with your password.' : 'Or ask a manager.';
    return {
      title: 'Locked for now, after too many tries.',
      detail: `${waitWords(fault.retryAfterSeconds)} ${ask}`,
    };
  }
  if (fault.code === 'device-unknown') {
    return {
      title: 'This tablet is not enrolled any more.',
      detail: 'Sign in with a password; a manager can enrol it again.',
    };
  }
  if (fault.status === 401) {
    return by === 'pin'
      ? { title: 'That PIN is not right.', detail: 'Try again. A manager can set a new one.' }
      : {
          title: 'E-mail and password do not belong together.',
          detail: 'Check both, also for capital letters.',
        };
  }
  return { title: 'Signing in did not work.', detail: fault.detail };
}
