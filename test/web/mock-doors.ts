import type { ServerResponse } from 'node:http';
import { type MockAccount, PASSWORD, PIN, accounts, shop } from './mock-data.js';
import { json, problem } from './mock-answers.js';
import type { Call, MockServer } from './mock-server.js';

/** Signing in, the refresh cookie, and the enrolled tablets. */
let serial = 0;

export function about(mock: MockServer, _call: Call, response: ServerResponse): void {
  const list = accounts.map(({ displayName: name, role, email }) => ({
    name,
    role,
    email,
    password: PASSWORD,
  }));
  json(response, 200, {
    name: 'Bayledger',
    version: '0',
    production: false,
    demo: mock.showsDemo ? { accounts: list } : null,
  });
}

const aCookie = (): string => `refresh-${(serial += 1)}`;

function open(mock: MockServer, response: ServerResponse, who: MockAccount, cookie = aCookie()): void {
  serial += 1;
  const token = `access-${serial}`;
  mock.sessions.set(token, who.id);
  if (!mock.cookies.has(cookie)) mock.cookies.set(cookie, { staffId: who.id });
  const staff = { id: who.id, displayName: who.displayName, roles: [who.role] };
  const headers = {
    'set-cookie': `mock_refresh=${cookie}; Path=/api/v1/sessions; HttpOnly; SameSite=Strict`,
  };
  json(response, 201, { accessToken: token, expiresInSeconds: 600, staff, shop }, headers);
}

export function signIn(mock: MockServer, call: Call, response: ServerResponse): void {
  const who = accounts.find((one) => one.email === call.body.email);
  if (who && call.body.password === PASSWORD) {
    open(mock, response, who);
    return;
  }
  problem(response, 401, { code: 'wrong-credentials', detail: 'E-mail or password is wrong.' });
}

/**
 * Rotates, with the real server's grace: a used cookie gives the same successor again as long as that is unused. A page
 * that is left while it renews its session has used its cookie and never hears of the next one.
 */
export function refresh(mock: MockServer, call: Call, response: ServerResponse): void {
  const kept = mock.cookies.get(/mock_refresh=([^;]+)/.exec(call.headers.cookie ?? '')?.[1] ?? '');
  const who = accounts.find((one) => one.id === kept?.staffId);
  const isSuccessorUsed = mock.cookies.get(kept?.successor ?? '')?.successor !== undefined;
  if (kept && who && !isSuccessorUsed) {
    kept.successor ??= aCookie();
    open(mock, response, who, kept.successor);
    return;
  }
  problem(response, 401, { code: 'session-over', detail: 'Sign in again.' });
}

const isEnrolled = (mock: MockServer, call: Call): boolean =>
  mock.devices.has(String(call.headers['x-device-token']));

export function people(mock: MockServer, call: Call, response: ServerResponse): void {
  if (!isEnrolled(mock, call)) {
    problem(response, 401, { code: 'device-unknown', detail: 'This device is not enrolled.' });
    return;
  }
  const items = accounts
    .filter((one) => one.role === 'technician')
    .map(({ id, displayName }) => ({ id, displayName }));
  json(response, 200, { items });
}

export function signInWithPin(mock: MockServer, call: Call, response: ServerResponse): void {
  const who = accounts.find((one) => one.id === call.body.staffId);
  if (isEnrolled(mock, call) && who && call.body.pin === PIN) {
    open(mock, response, who);
    return;
  }
  problem(response, 401, { code: 'wrong-credentials', detail: 'That PIN is wrong.' });
}

export function enrol(mock: MockServer, call: Call, response: ServerResponse): void {
  serial += 1;
  mock.devices.add(`device-${serial}`);
  json(response, 201, { id: `device-id-${serial}`, name: call.body.name, deviceToken: `device-${serial}` });
}
