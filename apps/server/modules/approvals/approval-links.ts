import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { ok } from '#libs/kernel';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { ProblemError } from '../../platform/http/problem-error.js';
import { choiceResponse, type ChoiceRequest, type ChoiceResponse } from '../estimates/index.js';
import { approvalResponse } from './data/approval.mapping.js';
import type { ApprovalLinkResponse, DecisionsResponse } from './dto/approval-link.response.js';
import type { DecideRequest } from './dto/decision.request.js';
import { OwnerDoor, type OwnerVisit } from './owner-door.js';
import { approvalOf } from './queries/approval.query.js';
import { decideByLink } from './use-cases/decide-by-link.js';

/** The wording under which answers through the API are given; the page has its own. */
const API_WORDING = 'api/1';

export interface LinkRequest {
  readonly token: string;
  readonly request: FastifyRequest;
  readonly reply: FastifyReply;
}

/** What an owner can do by a link, as JSON. */
@Injectable()
export class ApprovalLinks {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly door: OwnerDoor,
  ) {}

  async show(from: LinkRequest): Promise<ApprovalLinkResponse> {
    const { ctx, link } = await this.enter(from);
    const approval = await this.uow.read(ctx, (tx) => approvalOf(tx, link.revisionId));
    return approvalResponse(approval, link, from.token);
  }

  async prices(from: LinkRequest, { chosen }: ChoiceRequest): Promise<ChoiceResponse> {
    const { ctx, link } = await this.enter(from);
    return this.uow.read(ctx, async (tx) => {
      const wanted = chosen.map((lineId) => lineId.toLowerCase());
      const approval = await approvalOf(tx, link.revisionId, () => wanted);
      if (!approval.ok) return approval;
      // The owner gets figures; how a share came about is the desk's to unfold.
      return ok(
        choiceResponse(approval.value.offer, approval.value.price, (tree) => ({ ...tree, inputs: [] })),
      );
    });
  }

  async decide(from: LinkRequest, body: DecideRequest): Promise<DecisionsResponse> {
    const { ctx, link } = await this.enter(from);
    return this.uow.run(ctx, (tx) => decideByLink(tx, link, body, API_WORDING));
  }

  private async enter({ token, request, reply }: LinkRequest): Promise<OwnerVisit> {
    const visit = await this.door.enter(token, request, reply);
    if (!visit.ok) throw new ProblemError(visit.fault);
    return visit.value;
  }
}
