import createClient from 'openapi-fetch';
import { type Result, ok } from '#libs/kernel';
import { type ApiFault, faultFrom, lineLost } from './fault.js';
import type { paths } from './schema.js';
import type { BodyOf, MethodOf, Path, PathParametersOf, QueryOf, Reply } from './types.js';
import { uuid } from './uuid.js';

/** A call without its types, as the generated client's catch-all method takes it. */
type Loose = (
  method: string,
  path: string,
  init: Record<string, unknown>,
) => Promise<{ data?: unknown; error?: unknown; response: Response }>;

const request = createClient<paths>({
  // Looked up at each call, so that a page can be tested with another `fetch`.
  fetch: (input: Request) => fetch(input),
}).request as unknown as Loose;

export interface CallOptions<P extends Path, M> {
  readonly path?: PathParametersOf<P>;
  readonly query?: QueryOf<P, M>;
  readonly body?: BodyOf<P, M>;
  readonly headers?: Readonly<Record<string, string>>;
  readonly signal?: AbortSignal;
}
export type Answer<P extends Path, M> = Result<Reply<P, M>, ApiFault>;

/**
 * One request without a session. A POST carries an Idempotency-Key, and because of it is sent a second time when
 * no answer came: the server recognises the repeat.
 */
export async function send<P extends Path, M extends MethodOf<P>>(
  method: M,
  path: P,
  options: CallOptions<P, M> = {},
): Promise<Answer<P, M>> {
  const post = method === 'post';
  const init = {
    params: { path: options.path, query: options.query },
    body: options.body ?? (post ? {} : undefined),
    headers: { ...options.headers, ...(post ? { 'Idempotency-Key': `"${uuid()}"` } : {}) },
    signal: options.signal,
  };
  for (let attempt = 0; ; attempt += 1) {
    try {
      const { data, error, response } = await request(method, path, init);
      if (response.ok) return ok(data as Reply<P, M>);
      return { ok: false, fault: faultFrom(response, error) };
    } catch (cause) {
      if (options.signal?.aborted === true) throw cause;
      if (!post || attempt > 0) return { ok: false, fault: lineLost };
      await new Promise((done) => setTimeout(done, 300));
    }
  }
}
