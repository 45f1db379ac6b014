import { Controller, Get, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { BoardQuery } from './dto/board.request.js';
import { BoardResponse } from './dto/board.response.js';
import { board } from './queries/board.query.js';

@ApiTags('Board')
@Controller('board')
export class BoardController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(BoardResponse)
  @ApiOperation({ summary: 'The floor by bay and time, beside the work orders that can start' })
  show(@Ctx() ctx: RequestContext, @Query() query: BoardQuery): Promise<BoardResponse> {
    return this.uow.read(ctx, (tx) => board(tx, query.day));
  }
}
