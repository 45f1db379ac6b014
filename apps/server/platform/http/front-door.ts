import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { problem } from './problem-error.js';

/** Deeper than any request of ours, and far from where walking over a value would exhaust the stack. */
const DEEPEST = 32;

/** The API's own page writes styles into itself; scripts come as files there too. */
const DOCS_POLICY = [
  `default-src 'none'`,
  `script-src 'self'`,
  `style-src 'self' 'unsafe-inline'`,
  `img-src 'self' data:`,
  `font-src 'self'`,
  `connect-src 'self'`,
  `form-action 'none'`,
  `base-uri 'none'`,
  `frame-ancestors 'none'`,
].join('; ');

/**
 * What every request goes through before a route looks at it: the method must be one that the address takes, the body
 * must be of a kind and depth that is read here. Answers of the API are not kept by a cache unless a route says so.
 * To be called before the routes are made known.
 */
export function frontDoor(server: FastifyInstance, apiPath: string): void {
  const methods = new Map<string, Set<string>>();
  const patterns = new Map<string, RegExp>();
  const isApi = (request: FastifyRequest): boolean =>
    (request.routeOptions.url ?? request.url).startsWith(`${apiPath}/`);

  server.addHook('onRoute', ({ method, url }) => {
    if (url.includes('*')) return;
    const known = methods.get(url) ?? new Set();
    for (const one of [method].flat()) known.add(one);
    methods.set(url, known);
    patterns.set(url, new RegExp(`^${url.split('/').map(segment).join('/')}$`));
  });
  server.addHook('onRequest', (request, reply, done) => {
    if (isApi(request)) void reply.header('cache-control', 'private, no-cache');
    done(request.is404 ? notThatMethod(request) : undefined);
  });
  server.addHook('preValidation', (request, _reply, done) => {
    done(isApi(request) ? unreadable(request) : undefined);
  });
  server.addHook('onSend', (request: FastifyRequest, reply: FastifyReply, payload, done) => {
    if (/^\/api\/docs(\/|\?|$)/.test(request.url)) void reply.header('content-security-policy', DOCS_POLICY);
    done(null, payload);
  });
  // Fastify would read it as one text, and the complaint would be about missing fields.
  server.removeContentTypeParser('text/plain');

  function notThatMethod(request: FastifyRequest): Error | undefined {
    const path = request.url.split('?')[0] ?? '';
    const allow = [...patterns]
      .filter(([, p]) => p.test(path))
      .flatMap(([url]) => [...(methods.get(url) ?? [])]);
    if (allow.length === 0) return undefined;
    const sorted = [...new Set(allow)].sort();
    return problem('method-not-allowed', `This address takes ${sorted.join(', ')}.`, {
      facts: { allow: sorted },
    });
  }
}

function segment(part: string): string {
  return part.startsWith(':') ? '[^/]+' : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

function unreadable(request: FastifyRequest): Error | undefined {
  if (/^application\/x-www-form-urlencoded\b/i.test(request.headers['content-type'] ?? ''))
    return problem('unsupported-media-type', 'Send application/json.');
  if (isDeep(request.body))
    return problem('malformed-request', `The body is nested more than ${DEEPEST} levels deep.`);
  return undefined;
}

/** By levels and not by recursion, which is what a deep body would break. */
function isDeep(body: unknown): boolean {
  let level: unknown[] = [body];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > DEEPEST) return true;
    level = level.flatMap((value): unknown[] =>
      typeof value === 'object' && value !== null && !Buffer.isBuffer(value)
        ? Object.values(value as Record<string, unknown>)
        : [],
    );
  }
  return false;
}
