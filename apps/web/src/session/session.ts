import { useSyncExternalStore } from 'react';
import { send } from '../api/transport.js';
import type { OpenedSession } from '../api/types.js';

/**
 * Who is signed in on this page. The access token lives in this module's memory only; a page load gets a new one
 * through the refresh cookie, which scripts cannot read.
 */
export type SessionState =
  | { readonly kind: 'unknown' }
  | {
      readonly kind: 'signed-in';
      readonly staff: OpenedSession['staff'];
      readonly shop: OpenedSession['shop'];
    }
  | { readonly kind: 'signed-out'; readonly why: 'nobody' | 'expired' | 'left' }
  | { readonly kind: 'line-lost' };
export type SignedIn = Extract<SessionState, { kind: 'signed-in' }>;

/** Not a secret: says only that this browser has a refresh cookie, which spares a stranger a pointless call. */
const HINT = 'bayledger.signed-in';

let token: string | null = null;
let state: SessionState = { kind: 'unknown' };
let renewing: Promise<'renewed' | 'refused' | 'line-lost'> | null = null;
const listeners = new Set<() => void>();

function become(next: SessionState): void {
  state = next;
  for (const listener of listeners) listener();
}

/** A session that the server just opened. */
export function openSession(session: OpenedSession): void {
  token = session.accessToken;
  localStorage.setItem(HINT, '1');
  become({ kind: 'signed-in', staff: session.staff, shop: session.shop });
}

function forget(why: 'nobody' | 'expired' | 'left'): void {
  token = null;
  localStorage.removeItem(HINT);
  become({ kind: 'signed-out', why });
}

// Signing out in one tab signs out the others of this browser.
addEventListener('storage', (event) => {
  if (event.key === HINT && event.newValue === null && state.kind === 'signed-in') {
    token = null;
    become({ kind: 'signed-out', why: 'left' });
  }
});

export const bearer = (): Record<string, string> =>
  token === null ? {} : { Authorization: `Bearer ${token}` };
export const expire = (): void => forget('expired');

export function useSession(): SessionState {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => state,
  );
}

/** Refresh tokens rotate, and a used one looks stolen: tabs of one browser must take turns. */
async function inTurn<T>(act: () => Promise<T>): Promise<T> {
  // Absent outside https and localhost, whatever the type says.
  const locks = navigator.locks as LockManager | undefined;
  return locks ? await locks.request('bayledger.refresh', act) : await act();
}

async function renew(): Promise<'renewed' | 'refused' | 'line-lost'> {
  const answer = await inTurn(() =>
    send('post', '/api/v1/sessions/refresh', { body: { delivery: 'cookie' } }),
  );
  if (answer.ok) {
    openSession(answer.value);
    return 'renewed';
  }
  return answer.fault.status === 401 || answer.fault.status === 403 ? 'refused' : 'line-lost';
}

/** Gets a new access token; calls that come while one is under way share it. */
export function refresh(): Promise<'renewed' | 'refused' | 'line-lost'> {
  renewing ??= renew().finally(() => {
    renewing = null;
  });
  return renewing;
}

/** At page load: signed in again through the cookie, or not. */
export async function resume(): Promise<SessionState> {
  if (localStorage.getItem(HINT) === null) {
    become({ kind: 'signed-out', why: 'nobody' });
    return state;
  }
  const renewed = await refresh();
  if (renewed === 'refused') forget('expired');
  if (renewed === 'line-lost') become({ kind: 'line-lost' });
  return state;
}

/** Forgets the session here even when the server cannot be told: the person walks away from the screen. */
export async function signOut(): Promise<void> {
  await send('delete', '/api/v1/sessions/current', { headers: bearer() });
  forget('left');
}
