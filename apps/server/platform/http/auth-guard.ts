import { createHash } from 'node:crypto';
import { CanActivate, ExecutionContext, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import canonicalize from 'canonicalize';
import type { FastifyReply } from 'fastify';
import { can, type Action } from '#libs/access';
import type { Idempotency, RequestContext } from '../context.js';
import { AccessTokens } from './access-token.js';
import { problem } from './problem-error.js';
import { ACTION, OPEN_TO_ALL, type WithContext } from './route.js';

/** Default deny: whoever is not signed in gets 401, whose role may not gets 403, and every route says who may. */
@Injectable()
export class AuthGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly tokens: AccessTokens,
  ) {}

  canActivate(host: ExecutionContext): boolean {
    const request = host.switchToHttp().getRequest<WithContext>();
    const targets = [host.getHandler(), host.getClass()];
    if (this.reflector.getAllAndOverride<boolean | undefined>(OPEN_TO_ALL, targets)) return true;
    const action = this.reflector.getAllAndOverride<Action | undefined>(ACTION, targets);
    const token = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    const signedIn = token === undefined ? undefined : this.tokens.read(token);
    if (!signedIn) {
      throw problem(
        'not-signed-in',
        token === undefined
          ? 'Sign in and send the access token.'
          : 'The access token is not valid any more. Refresh the session or sign in again.',
      );
    }
    if (!action || !can(signedIn.actor.roles, action))
      throw problem(
        'not-allowed',
        `Your role may not do this (${action ?? 'nothing is allowed here'}). Ask a manager or an administrator.`,
      );
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const idempotency = idempotencyOf(request);
    request.bayledger = {
      ...signedIn,
      ...(idempotency ? { idempotency } : {}),
      onReplay: () => void reply.header('idempotent-replayed', 'true'),
    } satisfies RequestContext;
    return true;
  }
}

/** The header of draft-ietf-httpapi-idempotency-key-header: a quoted string; a bare token is taken too. */
export function idempotencyOf(request: WithContext): Idempotency | undefined {
  const header = request.headers['idempotency-key'];
  if (request.method !== 'POST' || header === undefined) return undefined;
  const key =
    /^"([\x20-\x7e]{1,200})"$/.exec(String(header))?.[1] ??
    /^([\x21-\x7e]{1,200})$/.exec(String(header))?.[1];
  if (key === undefined || key.includes('"'))
    throw problem(
      'malformed-request',
      'Idempotency-Key must be a quoted text of 1 to 200 characters, such as a UUID.',
    );
  const payload = request.isMultipart() ? '' : (canonicalize(request.body ?? null) ?? '');
  const fingerprint = createHash('sha256')
    .update(`${request.method} ${request.url}\n${payload}`)
    .digest('hex');
  return { key, fingerprint, status: 200 };
}
