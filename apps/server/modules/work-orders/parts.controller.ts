import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { ExpectPartRequest, ReceivePartRequest } from './dto/part.request.js';
import { PartExpectationResponse, PartNeedsResponse, PartReceiptResponse } from './dto/part.response.js';
import { partNeeds } from './queries/part-needs.query.js';
import { expectPart } from './use-cases/expect-part.js';
import { receivePart } from './use-cases/receive-part.js';

@ApiTags('Parts')
@Controller()
export class PartsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('repair-orders/:id/part-needs')
  @May('board.read')
  @Answers(PartNeedsResponse)
  @ApiOperation({ summary: 'What the approved lines need, and what of it has come in' })
  needs(@Ctx() ctx: RequestContext, @Id() id: string): Promise<PartNeedsResponse> {
    return this.uow.read(ctx, (tx) => partNeeds(tx, id));
  }

  @Post('line-items/:id/receipts')
  @May('part.receive')
  @Creates(PartReceiptResponse)
  @ApiOperation({ summary: 'A part or sublet work came in; a negative quantity corrects an earlier receipt' })
  receive(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: ReceivePartRequest,
  ): Promise<PartReceiptResponse> {
    return this.uow.run(ctx, (tx) => receivePart(tx, id, body));
  }

  @Post('line-items/:id/expectations')
  @May('part.receive')
  @Creates(PartExpectationResponse)
  @ApiOperation({
    summary: 'A part or sublet work will come at another time; the plan follows what was told last',
  })
  expect(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: ExpectPartRequest,
  ): Promise<PartExpectationResponse> {
    return this.uow.run(ctx, (tx) => expectPart(tx, id, body));
  }
}
