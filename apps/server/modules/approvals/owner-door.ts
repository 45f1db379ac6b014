import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { fail, ok, type Result } from '#libs/kernel';
import { systemContext, type RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { idempotencyOf } from '../../platform/http/auth-guard.js';
import { LinkTokens } from '../estimates/index.js';
import { closedLink } from './data/closed-link.js';
import { linkByHash, type FoundLink } from './queries/link.query.js';

const USER_AGENT_LENGTH = 400;

/** An owner who came in by an open link. */
export interface OwnerVisit {
  readonly ctx: RequestContext;
  readonly link: FoundLink;
}

const nowhere = () => fail('not-found', 'There is no such link. Use the whole address that you were sent.');

/** Turns the token of a link into whose it is. A token is the only key: no cookie, no session. */
@Injectable()
export class OwnerDoor {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly tokens: LinkTokens,
  ) {}

  /** `not-found` for a token that was never given out, `link-expired` or `link-revoked` for one that is closed. */
  async enter(token: string, request: FastifyRequest, reply: FastifyReply): Promise<Result<OwnerVisit>> {
    const read = this.tokens.read(token);
    if (!read) return nowhere();
    const link = await this.uow.read(
      systemContext(read.shopId, 'an approval link is looked up'),
      async (tx) => ok(await linkByHash(tx, read.tokenHash)),
    );
    if (!link) return nowhere();
    if (link.state !== 'open') return closedLink(link);
    const idempotency = idempotencyOf(request);
    return ok({
      link,
      ctx: {
        shopId: read.shopId,
        actor: {
          kind: 'owner',
          linkId: link.id,
          address: request.ip,
          userAgent: (request.headers['user-agent'] ?? '').slice(0, USER_AGENT_LENGTH),
        },
        ...(idempotency ? { idempotency } : {}),
        onReplay: () => void reply.header('idempotent-replayed', 'true'),
      },
    });
  }
}
