import { Body, Controller, Delete, Get, Post, Put } from '@nestjs/common';
import { ApiHeader, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, IfMatchWhenThere, May, Origin } from '../../platform/http/route.js';
import {
  LinksResponse,
  MakeLinkRequest,
  NewLinkResponse,
  SendRevisionRequest,
  SentRevisionResponse,
} from './dto/link.response.js';
import { RangeResponse } from './dto/range.response.js';
import { OrderDiscountRequest } from './dto/discount.js';
import { ChoiceRequest, ChoiceResponse, RevisionResponse } from './dto/revision.response.js';
import { LinkTokens } from './link-tokens.js';
import { linksPage } from './queries/links.query.js';
import { priceOfChoice } from './queries/price-choice.query.js';
import { rangeOfRevision } from './queries/range.query.js';
import { discountOrder } from './use-cases/discount-order.js';
import { makeLink, revokeLink } from './use-cases/make-link.js';
import { sendRevision } from './use-cases/send-revision.js';

@ApiTags('Estimate')
@Controller()
export class RevisionsController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly tokens: LinkTokens,
  ) {}

  @Post('revisions/:id/prices')
  @May('estimate.write')
  @Answers(ChoiceResponse)
  @ApiOperation({ summary: 'What a choice of its lines costs; computes and stores nothing' })
  prices(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: ChoiceRequest): Promise<ChoiceResponse> {
    return this.uow.read(ctx, (tx) => priceOfChoice(tx, id, body.chosen));
  }

  @Post('revisions/:id/ranges')
  @May('estimate.write')
  @Answers(RangeResponse)
  @ApiOperation({ summary: 'What a choice of its lines may come to; computes and stores nothing' })
  ranges(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: ChoiceRequest): Promise<RangeResponse> {
    return this.uow.read(ctx, (tx) => rangeOfRevision(tx, id, body.chosen));
  }

  @Put('revisions/:id/discount')
  @May('estimate.write')
  @NeedsVersion()
  @Answers(RevisionResponse)
  @ApiOperation({
    summary: 'Set what is taken off a whole draft, with the reason; nothing given takes it away again',
  })
  discount(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: OrderDiscountRequest,
  ): Promise<RevisionResponse> {
    return this.uow.run(ctx, (tx) => discountOrder(tx, id, version, body));
  }

  @Post('revisions/:id/send')
  @May('estimate.send')
  @Acts(SentRevisionResponse)
  @ApiHeader({
    name: 'If-Match',
    required: false,
    description: 'The version that was looked at before sending.',
  })
  @ApiOperation({
    summary: 'Freeze a revision and make the first link to it; the address is shown this once',
  })
  async send(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatchWhenThere() version: number | '*' | undefined,
    @Origin() origin: string,
    @Body() body: SendRevisionRequest,
  ): Promise<SentRevisionResponse> {
    const sent = await this.uow.run(ctx, (tx) =>
      sendRevision(tx, this.tokens, id, version ?? '*', body.validHours),
    );
    return { ...sent, link: { ...sent.link, url: this.tokens.urlOf(ctx.shopId, sent.link.id, origin) } };
  }

  @Post('revisions/:id/links')
  @May('estimate.send')
  @Creates(NewLinkResponse)
  @ApiOperation({ summary: 'Make a further link to a sent revision; the address is shown this once' })
  async link(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Origin() origin: string,
    @Body() body: MakeLinkRequest,
  ): Promise<NewLinkResponse> {
    const made = await this.uow.run(ctx, (tx) => makeLink(tx, this.tokens, id, body.validHours));
    return { ...made, url: this.tokens.urlOf(ctx.shopId, made.id, origin) };
  }

  @Get('repair-orders/:id/links')
  @May('repair-order.read')
  @Answers(LinksResponse)
  @ApiOperation({ summary: 'The links of a repair order, without their addresses, the latest first' })
  links(@Ctx() ctx: RequestContext, @Id() id: string): Promise<LinksResponse> {
    return this.uow.read(ctx, (tx) => linksPage(tx, id));
  }

  @Delete('links/:id')
  @May('link.revoke')
  @Empties()
  @ApiOperation({ summary: 'Close a link; what was decided by it stands' })
  revoke(@Ctx() ctx: RequestContext, @Id() id: string): Promise<void> {
    return this.uow.run(ctx, (tx) => revokeLink(tx, id));
  }
}
