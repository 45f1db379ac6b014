import { Inject, Injectable } from '@nestjs/common';
import type {} from '@fastify/cookie';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { ok } from '#libs/kernel';
import { Clock } from '../../../platform/clock.js';
import type { Config } from '../../../platform/config.js';
import { systemContext } from '../../../platform/context.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { AccessTokens } from '../../../platform/http/access-token.js';
import { problem, ProblemError } from '../../../platform/http/problem-error.js';
import { CONFIG } from '../../../platform/tokens.js';
import type { Delivery, RefreshSessionRequest } from '../dto/session.request.js';
import type { OpenedSessionResponse } from '../dto/session.response.js';
import { sessionOfToken } from '../queries/session-of-token.query.js';
import { endSessions } from '../use-cases/end-sessions.js';
import type { OpenedSession } from '../use-cases/open-session.js';
import { refreshSession } from '../use-cases/refresh-session.js';
import { DerivedTokens, shopOfToken } from './opaque-token.js';
import { sessionEnded } from './sign-in-faults.js';

const COOKIE = 'bayledger_refresh';
/** The cookie travels to these addresses only, never along with ordinary calls. */
const COOKIE_PATH = '/api/v1/sessions';

/** Hands out what a session is held by, trades it for fresh, and takes it back. */
@Injectable()
export class Sessions {
  constructor(
    @Inject(CONFIG) private readonly config: Config,
    private readonly clock: Clock,
    private readonly uow: UnitOfWork,
    private readonly tokens: AccessTokens,
    private readonly derived: DerivedTokens,
  ) {}

  give(reply: FastifyReply, opened: OpenedSession, delivery: Delivery): OpenedSessionResponse {
    const { staff, shop, refreshToken, expiresAt, sessionId } = opened;
    if (delivery === 'cookie')
      void reply.setCookie(COOKIE, refreshToken, {
        ...this.cookieScope(),
        maxAge: Math.max(1, Math.floor((expiresAt.getTime() - this.clock.wall().getTime()) / 1000)),
      });
    void reply.header('cache-control', 'no-store');
    return {
      accessToken: this.tokens.issue(shop.id, {
        kind: 'staff',
        staffId: staff.id,
        displayName: staff.displayName,
        roles: staff.roles,
        sessionId,
      }),
      expiresInSeconds: this.tokens.lifeSeconds,
      ...(delivery === 'body' ? { refreshToken } : {}),
      staff: { ...staff },
      shop: { ...shop },
    };
  }

  /** A token from the cookie never leaves as text, and one given as text never becomes a cookie. */
  async refresh(
    request: FastifyRequest,
    reply: FastifyReply,
    wanted: RefreshSessionRequest,
  ): Promise<OpenedSessionResponse> {
    const token = wanted.delivery === 'cookie' ? request.cookies[COOKIE] : wanted.refreshToken;
    const shopId = shopOfToken(token);
    const renewed =
      token === undefined || shopId === undefined
        ? undefined
        : await this.uow.run(systemContext(shopId, 'refresh'), (tx) =>
            refreshSession(tx, token, this.derived.successor(shopId, token)),
          );
    if (renewed) return this.give(reply, renewed, wanted.delivery);
    if (wanted.delivery === 'cookie') this.forget(reply);
    throw new ProblemError(sessionEnded().fault);
  }

  /** Ends the session of the access token, or, when that has run out, of the refresh cookie. Twice is harmless. */
  async end(request: FastifyRequest, reply: FastifyReply): Promise<void> {
    const held = this.heldBy(request) ?? (await this.heldByCookie(request));
    this.forget(reply);
    if (!held) throw problem('not-signed-in', 'There is no session to end.');
    const { shopId, sessionId } = held;
    await this.uow.run(systemContext(shopId, 'sign-out'), (tx) =>
      endSessions(tx, { sessionId }, 'signed-out'),
    );
  }

  private heldBy(request: FastifyRequest): { shopId: string; sessionId: string } | undefined {
    const token = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    const signedIn = token === undefined ? undefined : this.tokens.read(token);
    return signedIn && { shopId: signedIn.shopId, sessionId: signedIn.actor.sessionId };
  }

  private async heldByCookie(
    request: FastifyRequest,
  ): Promise<{ shopId: string; sessionId: string } | undefined> {
    const token = request.cookies[COOKIE];
    const shopId = shopOfToken(token);
    if (token === undefined || shopId === undefined) return undefined;
    const sessionId = await this.uow.read(systemContext(shopId, 'sign-out'), async (tx) =>
      ok(await sessionOfToken(tx, token)),
    );
    return sessionId === undefined ? undefined : { shopId, sessionId };
  }

  private forget(reply: FastifyReply): void {
    void reply.clearCookie(COOKIE, this.cookieScope());
  }

  private cookieScope(): { path: string; httpOnly: true; sameSite: 'strict'; secure: boolean } {
    return { path: COOKIE_PATH, httpOnly: true, sameSite: 'strict', secure: this.config.production };
  }
}
