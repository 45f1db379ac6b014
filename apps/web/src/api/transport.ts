import { type Result, ok } from '#libs/kernel';
import { type ApiFault, faultFrom, lineLost } from './fault.js';
import type { BodyOf, MethodOf, Path, PathParametersOf, QueryOf, Reply } from './types.js';
import { uuid } from './uuid.js';

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
 * no answer came: the server recognises the repeat. Whoever tries again later, with the same request, brings their own key.
 */
export async function send<P extends Path, M extends MethodOf<P>>(
  method: M,
  path: P,
  options: CallOptions<P, M> = {},
): Promise<Answer<P, M>> {
  const post = method === 'post';
  const body: unknown = options.body ?? (post ? {} : undefined);
  const isForm = body instanceof FormData;
  const init: RequestInit = {
    method: method.toUpperCase(),
    headers: {
      ...(body === undefined || isForm ? {} : { 'Content-Type': 'application/json' }),
      ...(post ? { 'Idempotency-Key': `"${uuid()}"` } : {}),
      ...options.headers,
    },
    ...(body === undefined ? {} : { body: isForm ? body : JSON.stringify(body) }),
    ...(options.signal ? { signal: options.signal } : {}),
  };
  const address = addressOf(path, options.path, options.query as object | undefined);
  for (let attempt = 0; ; attempt += 1) {
    try {
      const response = await fetch(address, init);
      const text = await response.text();
      if (response.ok) return ok((text === '' ? undefined : JSON.parse(text)) as Reply<P, M>);
      return { ok: false, fault: faultFrom(response, jsonOf(text)) };
    } catch (cause) {
      if (options.signal?.aborted === true) throw cause;
      if (!post || attempt > 0) return { ok: false, fault: lineLost };
      await new Promise((done) => setTimeout(done, 300));
    }
  }
}

type Scalar = string | number | boolean;

/** The address with its parts in place of their names, and the query behind it; what is undefined is not sent. */
function addressOf(path: string, parts: object | undefined, query: object | undefined): string {
  const values = new Map(Object.entries(parts ?? {}) as [string, string][]);
  const filled = path.replace(/\{(\w+)\}/g, (_, name: string) => encodeURIComponent(values.get(name) ?? ''));
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(query ?? {}) as [string, Scalar | undefined][])
    if (value !== undefined) asked.set(name, String(value));
  const behind = asked.toString();
  return behind === '' ? filled : `${filled}?${behind}`;
}

/** A refusal may come from something in between that does not speak JSON. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
