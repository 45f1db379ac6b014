import { bearer, expire, refresh } from '../session/session.js';
import { type Answer, type CallOptions, send } from './transport.js';
import type { MethodOf, Path } from './types.js';

/** One request of the signed-in person. A 401 is answered by one refresh and one more try. */
export async function call<P extends Path, M extends MethodOf<P>>(
  method: M,
  path: P,
  options: CallOptions<P, M> = {},
): Promise<Answer<P, M>> {
  const signed = (): CallOptions<P, M> => ({ ...options, headers: { ...options.headers, ...bearer() } });
  const first = await send(method, path, signed());
  if (first.ok || first.fault.status !== 401) return first;
  const renewed = await refresh();
  if (renewed === 'renewed') return send(method, path, signed());
  if (renewed === 'refused') expire();
  return first;
}

export const ifMatch = (version: number): Record<string, string> => ({ 'If-Match': `"${version}"` });
