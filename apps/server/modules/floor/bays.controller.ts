import { Body, Controller, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { ListOf } from '../../platform/http/fields.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddBayRequest, ChangeBayRequest } from './dto/bay.request.js';
import { BayResponse } from './dto/bay.response.js';
import { allBays, bayById } from './queries/bays.query.js';
import { addBay } from './use-cases/add-bay.js';
import { changeBay } from './use-cases/change-bay.js';

class BaysResponse {
  @ListOf(() => BayResponse) items: BayResponse[];
}

@ApiTags('Floor')
@Controller('bays')
export class BaysController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(BaysResponse)
  @ApiOperation({ summary: 'The bays of the shop, by number' })
  list(@Ctx() ctx: RequestContext): Promise<BaysResponse> {
    return this.uow.read(ctx, allBays);
  }

  @Get(':id')
  @May('board.read')
  @WholeInVersion()
  @Answers(BayResponse)
  @ApiOperation({ summary: 'One bay' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<BayResponse> {
    return this.uow.read(ctx, (tx) => bayById(tx, id));
  }

  @Post()
  @May('floor.configure')
  @Creates(BayResponse)
  @ApiOperation({ summary: 'Add a bay' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddBayRequest): Promise<BayResponse> {
    return this.uow.run(ctx, (tx) => addBay(tx, body));
  }

  @Patch(':id')
  @May('floor.configure')
  @NeedsVersion()
  @Answers(BayResponse)
  @ApiOperation({ summary: 'Change a bay, or take it out of service' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeBayRequest,
  ): Promise<BayResponse> {
    return this.uow.run(ctx, (tx) => changeBay(tx, id, version, body));
  }
}
