import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import {
  CalendarQuery,
  ChangeClosureRequest,
  CloseBayRequest,
  CloseToolRequest,
} from './dto/calendar.request.js';
import {
  BayClosureResponse,
  BayClosuresResponse,
  ToolClosureResponse,
  ToolClosuresResponse,
} from './dto/calendar.response.js';
import { bayClosuresOf, toolClosuresOf } from './queries/calendar.query.js';
import { changeBayClosure, closeBay } from './use-cases/close-bay.js';
import { changeToolClosure, closeTool } from './use-cases/close-tool.js';

@ApiTags('Floor')
@Controller()
export class ClosuresController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('bays/:id/closures')
  @May('board.read')
  @Answers(BayClosuresResponse)
  @ApiOperation({ summary: 'When a bay is out of service' })
  ofBay(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Query() query: CalendarQuery,
  ): Promise<BayClosuresResponse> {
    return this.uow.read(ctx, (tx) => bayClosuresOf(tx, id, query));
  }

  @Post('bays/:id/closures')
  @May('calendar.write')
  @Creates(BayClosureResponse)
  @ApiOperation({
    summary: 'Take a bay out of service for a time',
    description: 'No work is planned in it then. The answer names what is planned in it already.',
  })
  closeBay(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CloseBayRequest,
  ): Promise<BayClosureResponse> {
    return this.uow.run(ctx, (tx) => closeBay(tx, id, body));
  }

  @Patch('bays/:id/closures/:closureId')
  @May('calendar.write')
  @NeedsVersion()
  @Answers(BayClosureResponse)
  @ApiOperation({ summary: 'Say when the bay is expected back, or that it is back in service' })
  changeBayClosure(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Id('closureId') closureId: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeClosureRequest,
  ): Promise<BayClosureResponse> {
    return this.uow.run(ctx, (tx) => changeBayClosure(tx, id, closureId, version, body));
  }

  @Get('special-tools/:id/closures')
  @May('board.read')
  @Answers(ToolClosuresResponse)
  @ApiOperation({ summary: 'When units of a special tool are out of service' })
  ofTool(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Query() query: CalendarQuery,
  ): Promise<ToolClosuresResponse> {
    return this.uow.read(ctx, (tx) => toolClosuresOf(tx, id, query));
  }

  @Post('special-tools/:id/closures')
  @May('calendar.write')
  @Creates(ToolClosureResponse)
  @ApiOperation({ summary: 'Take one unit of a special tool out of service for a time' })
  closeTool(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CloseToolRequest,
  ): Promise<ToolClosureResponse> {
    return this.uow.run(ctx, (tx) => closeTool(tx, id, body));
  }

  @Patch('special-tools/:id/closures/:closureId')
  @May('calendar.write')
  @NeedsVersion()
  @Answers(ToolClosureResponse)
  @ApiOperation({ summary: 'Say when the tool is expected back, or that it is back in service' })
  changeToolClosure(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Id('closureId') closureId: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeClosureRequest,
  ): Promise<ToolClosureResponse> {
    return this.uow.run(ctx, (tx) => changeToolClosure(tx, id, closureId, version, body));
  }
}
