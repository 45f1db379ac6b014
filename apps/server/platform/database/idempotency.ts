import { fail } from '#libs/kernel';
import type { Idempotency } from '../context.js';
import { ProblemError } from '../http/problem-error.js';
import type { Tx } from './tx.js';

interface Stored {
  fingerprint: string;
  body: unknown;
}

/**
 * The key is held by a lock that ends with the transaction, and the answer is stored in the same transaction as the
 * act. A process killed in between has done nothing and stored nothing, so the repeat simply does it.
 * Rules: draft-ietf-httpapi-idempotency-key-header (replay the first answer; other payload 422; still running 409).
 */
export async function beginIdempotent(
  tx: Tx,
  actor: string,
  wanted: Idempotency,
): Promise<{ body: unknown } | undefined> {
  const lock = await tx.one<{ mine: boolean }>(
    `select pg_try_advisory_xact_lock(hashtextextended($1, 1)) as mine`,
    [`${tx.shopId}:${actor}:${wanted.key}`],
  );
  if (!lock?.mine) {
    throw new ProblemError(
      fail('request-in-progress', 'The same request is still being worked on. Ask again in a moment.').fault,
    );
  }
  const stored = await tx.one<Stored>(
    'select fingerprint, body from idempotency_keys where shop_id = $1 and actor_id = $2 and key = $3',
    [tx.shopId, actor, wanted.key],
  );
  if (!stored) return undefined;
  if (stored.fingerprint !== wanted.fingerprint) {
    throw new ProblemError(
      fail('idempotency-key-reused', 'This Idempotency-Key was used for another request. Send a new key.')
        .fault,
    );
  }
  return { body: stored.body };
}

/** Longer than any client goes on trying; the draft leaves it to the server. */
const KEPT_MS = 3 * 86_400_000;
/** More than one, so that what is too old goes faster than new comes. */
const AT_ONCE = 5;

/** Each answer that is stored also takes a few away that nobody will ask for again, so that the table stays small. */
export async function storeAnswer(tx: Tx, actor: string, wanted: Idempotency, body: unknown): Promise<void> {
  await tx.em.query(
    `with gone as (
       delete from idempotency_keys k using (
         select actor_id, key from idempotency_keys where shop_id = $1 and created_at < $8
          order by created_at limit ${AT_ONCE} for update skip locked) old
        where k.shop_id = $1 and k.actor_id = old.actor_id and k.key = old.key)
     insert into idempotency_keys (shop_id, actor_id, key, fingerprint, status, body, created_at)
     values ($1, $2, $3, $4, $5, $6, $7)`,
    [
      tx.shopId,
      actor,
      wanted.key,
      wanted.fingerprint,
      wanted.status,
      JSON.stringify(body ?? null),
      tx.wall,
      new Date(tx.wall.getTime() - KEPT_MS),
    ],
  );
}
