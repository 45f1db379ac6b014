import fc from 'fast-check';
import { afterWrong, isLocked, type Attempts } from './attempts.js';
import { KeyedQueue } from './keyed-queue.js';
import { DerivedTokens, newToken, shopOfToken, tokenHash } from './opaque-token.js';
import { refreshVerdict, type RefreshFacts } from './refresh-verdict.js';
import { rolesBy } from './roles-by.js';
import { hashSecret, matchesSecret } from './secret-hash.js';
import { passwordFault, pinFault } from './secret-policy.js';
import { StrangerLocks } from './stranger-locks.js';

const START = Date.parse('2026-03-11T08:00:00Z');
const at = (seconds: number): Date => new Date(START + seconds * 1000);
const SHOP = '0190d3a0-0000-7000-8000-00000000000a';

describe('wrong attempts', () => {
  const none: Attempts = { failed: 0, lockedUntil: null };

  it('lock at the fifth, for a quarter of an hour, and then count from the start', () => {
    let attempts = none;
    for (let i = 1; i <= 4; i += 1) attempts = afterWrong(attempts, at(i));
    expect(attempts).toEqual({ failed: 4, lockedUntil: null });
    attempts = afterWrong(attempts, at(5));
    expect(attempts).toEqual({ failed: 5, lockedUntil: at(5 + 900) });
    expect([isLocked(attempts, at(904)), isLocked(attempts, at(905))]).toEqual([true, false]);
    expect(afterWrong(attempts, at(100))).toBe(attempts);
    expect(afterWrong(attempts, at(905))).toEqual({ failed: 1, lockedUntil: null });
  });

  it('never let anybody try more than five times in any quarter of an hour', () => {
    const gaps = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(gaps, (list) => {
        let [attempts, time] = [none, 0];
        const lockedAt: number[] = [];
        const tried: number[] = [];
        for (const gap of list) {
          time += gap;
          if (isLocked(attempts, at(time))) continue;
          tried.push(time);
          attempts = afterWrong(attempts, at(time));
          if (isLocked(attempts, at(time))) lockedAt.push(time);
        }
        for (const lock of lockedAt) expect(tried.filter((t) => t > lock && t < lock + 900)).toEqual([]);
        expect(lockedAt.length).toBe(Math.floor(tried.length / 5));
      }),
    );
  });

  it('on addresses that nobody has are forgotten only when there are very many of them', () => {
    const locks = new StrangerLocks();
    for (let i = 0; i < 5; i += 1) locks.countWrong('a', at(i));
    expect(locks.lockedUntil('a', at(10))).toEqual(at(4 + 900));
    for (let i = 0; i < 9_999; i += 1) locks.countWrong(`other ${i}`, at(10));
    expect(locks.lockedUntil('a', at(10))).toEqual(at(4 + 900));
    locks.countWrong('one more', at(10));
    expect(locks.lockedUntil('a', at(10))).toBeUndefined();
  });
});

describe('a refresh token', () => {
  const fresh: RefreshFacts = {
    usedAt: null,
    isSuccessorUnused: false,
    sessionEndedAt: null,
    sessionExpiresAt: at(1000),
    isStaffActive: true,
  };
  const used = { ...fresh, usedAt: at(0), isSuccessorUnused: true };

  it.each<[string, RefreshFacts, number, ReturnType<typeof refreshVerdict>]>([
    ['unused', fresh, 1, 'rotate'],
    ['used a moment ago, its successor unused', used, 15, 'repeat'],
    ['used longer ago', used, 16, 'reused'],
    ['used a moment ago, its successor used too', { ...used, isSuccessorUnused: false }, 1, 'reused'],
    ['of a session that has run out', fresh, 1000, 'ended'],
    ['of a session that was ended', { ...fresh, sessionEndedAt: at(0) }, 1, 'ended'],
    ['used, of a session that was ended', { ...used, sessionEndedAt: at(0) }, 500, 'ended'],
    ['of somebody who left', { ...fresh, isStaffActive: false }, 1, 'ended'],
  ])('%s', (_name, facts, seconds, verdict) => {
    expect(refreshVerdict(facts, at(seconds))).toBe(verdict);
  });

  it('says which shop it is of, is never the same twice, and is kept as a digest', () => {
    const token = newToken(SHOP);
    expect(token).toMatch(/^[A-Za-z0-9_-]{64}$/);
    expect(shopOfToken(token)).toBe(SHOP);
    expect(newToken(SHOP)).not.toBe(token);
    // FIPS 180-4, the digest of "abc" (NIST example values).
    expect(tokenHash('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    for (const wrong of [undefined, '', 'x', `${token}A`, token.replace(/.$/, '+')])
      expect(shopOfToken(wrong)).toBeUndefined();
  });

  it('has one successor, which nobody finds without the secret of the server', () => {
    const [here, elsewhere] = ['one secret', 'another'].map((jwtSecret) => new DerivedTokens({ jwtSecret }));
    const token = newToken(SHOP);
    expect(here?.successor(SHOP, token)).toBe(here?.successor(SHOP, token));
    expect(here?.successor(SHOP, token)).not.toBe(elsewhere?.successor(SHOP, token));
    expect(here?.successor(SHOP, token)).not.toBe(here?.ofDevice(SHOP, token));
    expect(shopOfToken(here?.successor(SHOP, token))).toBe(SHOP);
  });
});

describe('passwords and PINs', () => {
  it('match themselves in any Unicode form and nothing else, and nothing matches where none is kept', async () => {
    const kept = await hashSecret('caf\u00e9 au lait noir');
    expect(kept).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect(await matchesSecret(kept, 'cafe\u0301 au lait noir')).toBe(true);
    expect(await matchesSecret(kept, 'cafe au lait noir')).toBe(false);
    expect(await matchesSecret(null, 'caf\u00e9 au lait noir')).toBe(false);
  });

  it('are refused when anybody would try them first', () => {
    for (const bad of [
      'short one',
      'aaaaaaaaaaaa',
      'abcabcabcabc',
      '1234567890',
      '9876543210',
      'a'.repeat(201),
    ])
      expect([bad, passwordFault(bad, [])?.pointer]).toEqual([bad, '/password']);
    expect(passwordFault('Orla Venn-Tarle', ['orla venn-tarle'])?.pointer).toBe('/password');
    for (const good of ['ten chars!', 'four plain words here', 'пароль из слов'])
      expect(passwordFault(good, [null])).toBeUndefined();
    for (const bad of ['0000', '1234', '4321', '7890', '0987', '12345678', '123', '１２３５'])
      expect([bad, pinFault(bad)?.pointer]).toEqual([bad, '/pin']);
    for (const good of ['1235', '2468', '1212', '90210748']) expect(pinFault(good)).toBeUndefined();
  });

  it('a PIN never carries the role of an administrator, nor a role that is none', () => {
    expect(rolesBy('pin', ['technician', 'administrator'])).toEqual(['technician']);
    expect(rolesBy('password', ['technician', 'administrator', 'boss'])).toEqual([
      'technician',
      'administrator',
    ]);
  });
});

describe('attempts on one person', () => {
  it('take turns, also after one that failed, and leave nothing behind', async () => {
    const queue = new KeyedQueue();
    const order: string[] = [];
    const step = (name: string, fails = false) =>
      queue.run('key', async () => {
        order.push(`${name} begins`);
        await new Promise((resolve) => setImmediate(resolve));
        order.push(`${name} ends`);
        if (fails) throw new Error(name);
      });
    const all = await Promise.allSettled([step('a'), step('b', true), step('c')]);
    expect(all.map((r) => r.status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(order).toEqual(['a begins', 'a ends', 'b begins', 'b ends', 'c begins', 'c ends']);
    expect((queue as unknown as { tails: Map<string, unknown> }).tails.size).toBe(0);
  });
});
