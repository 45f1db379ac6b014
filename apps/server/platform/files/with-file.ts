import { createHash } from 'node:crypto';
import type { RequestContext } from '../context.js';

/** The context of an upload: the fingerprint of its idempotency key also covers the file, which the guard never saw. */
export function withFile(ctx: RequestContext, sha256: string): RequestContext {
  if (!ctx.idempotency) return ctx;
  const fingerprint = createHash('sha256').update(`${ctx.idempotency.fingerprint}\n${sha256}`).digest('hex');
  return { ...ctx, idempotency: { ...ctx.idempotency, fingerprint } };
}
