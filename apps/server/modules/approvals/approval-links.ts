import { Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { ok } from '#libs/kernel';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { ProblemError } from '../../platform/http/problem-error.js';
import {
  choiceResponse,
  Choices,
  linesToChoose,
  type ChoiceRequest,
  type ChoiceResponse,
  type ChoicesResponse,
  type SumRequest,
} from '../estimates/index.js';
import { approvalResponse, textOf } from './data/approval.mapping.js';
import type { ApprovalLinkResponse, DecisionsResponse } from './dto/approval-link.response.js';
import type { DecideRequest } from './dto/decision.request.js';
import { OwnerDoor, type OwnerVisit } from './owner-door.js';
import { approvalRange } from './queries/approval-range.query.js';
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
    private readonly sets: Choices,
  ) {}

  async show(from: LinkRequest): Promise<ApprovalLinkResponse> {
    const { ctx, link } = await this.enter(from);
    const { approval, range } = await this.uow.read(ctx, async (tx) => {
      const shown = await approvalOf(tx, link.revisionId);
      if (!shown.ok) return shown;
      const drawn = await approvalRange(tx, shown.value);
      return drawn.ok ? ok({ approval: shown.value, range: drawn.value }) : drawn;
    });
    return { ...approvalResponse(approval, link, from.token), range };
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

  async choices(from: LinkRequest, body: SumRequest): Promise<ChoicesResponse> {
    const { ctx, link } = await this.enter(from);
    const { offer, document } = await this.uow.read(ctx, (tx) => approvalOf(tx, link.revisionId));
    const chosen = {
      offer,
      lines: linesToChoose(offer),
      currency: textOf(document.about, 'currency'),
      vehicleValueCents: document.vehicleValueCents ?? null,
    };
    return this.sets.among(chosen, body);
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
