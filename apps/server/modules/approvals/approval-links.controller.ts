import { Body, Controller, Get, Header, Param, Post, Req, Res } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Acts, Answers } from '../../platform/http/answers.js';
import { OpenToAll } from '../../platform/http/route.js';
import { ChoiceRequest, ChoiceResponse, ChoicesResponse, SumRequest } from '../estimates/index.js';
import { ApprovalLinks } from './approval-links.js';
import { ApprovalLinkResponse, DecisionsResponse } from './dto/approval-link.response.js';
import { DecideRequest } from './dto/decision.request.js';
import { LinkRate } from './link-rate.js';

@ApiTags('Approval link')
@Controller('approval-links')
export class ApprovalLinksController {
  constructor(private readonly links: ApprovalLinks) {}

  @Get(':token')
  @OpenToAll()
  @LinkRate()
  @Header('cache-control', 'no-store')
  @Answers(ApprovalLinkResponse)
  @ApiOperation({ summary: 'What the owner is shown, and what is decided; reading it changes nothing' })
  show(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<ApprovalLinkResponse> {
    return this.links.show({ token, request, reply });
  }

  @Post(':token/prices')
  @OpenToAll()
  @LinkRate()
  @Answers(ChoiceResponse)
  @ApiOperation({ summary: 'What a choice of lines costs; computes and stores nothing' })
  prices(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
    @Body() body: ChoiceRequest,
  ): Promise<ChoiceResponse> {
    return this.links.prices({ token, request, reply }, body);
  }

  @Post(':token/choices')
  @OpenToAll()
  @LinkRate()
  @Answers(ChoicesResponse)
  @ApiOperation({
    summary:
      'The best sets of lines for a budget, and the ladder of all budgets; computes and stores nothing',
  })
  choices(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
    @Body() body: SumRequest,
  ): Promise<ChoicesResponse> {
    return this.links.choices({ token, request, reply }, body);
  }

  @Post(':token/decisions')
  @OpenToAll()
  @LinkRate()
  @Acts(DecisionsResponse)
  @ApiOperation({
    summary: 'Decide on some or all lines; the same answers again are harmless, with or without a key',
  })
  decide(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
    @Body() body: DecideRequest,
  ): Promise<DecisionsResponse> {
    return this.links.decide({ token, request, reply }, body);
  }
}
