import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { CalendarQuery, CloseDayRequest, DayInPath } from './dto/calendar.request.js';
import { CalendarResponse, ClosedDayResponse, ClosedDaysResponse } from './dto/calendar.response.js';
import { calendarOf, closedDays } from './queries/calendar.query.js';
import { closeDay } from './use-cases/close-day.js';
import { openDay } from './use-cases/open-day.js';

@ApiTags('Floor')
@Controller()
export class CalendarController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('calendar')
  @May('board.read')
  @Answers(CalendarResponse)
  @ApiOperation({ summary: 'Who is away, what is out of service and when the shop is closed' })
  show(@Ctx() ctx: RequestContext, @Query() query: CalendarQuery): Promise<CalendarResponse> {
    return this.uow.read(ctx, (tx) => calendarOf(tx, query));
  }

  @Get('closed-days')
  @May('board.read')
  @Answers(ClosedDaysResponse)
  @ApiOperation({ summary: 'The days on which the shop is closed' })
  list(@Ctx() ctx: RequestContext, @Query() query: CalendarQuery): Promise<ClosedDaysResponse> {
    return this.uow.read(ctx, (tx) => closedDays(tx, query));
  }

  @Post('closed-days')
  @May('floor.configure')
  @Creates(ClosedDayResponse)
  @ApiOperation({ summary: 'Close the shop on a day' })
  close(@Ctx() ctx: RequestContext, @Body() body: CloseDayRequest): Promise<ClosedDayResponse> {
    return this.uow.run(ctx, (tx) => closeDay(tx, body));
  }

  @Delete('closed-days/:day')
  @May('floor.configure')
  @Empties()
  @ApiOperation({ summary: 'Open on that day after all' })
  open(@Ctx() ctx: RequestContext, @Param() { day }: DayInPath): Promise<void> {
    return this.uow.run(ctx, (tx) => openDay(tx, day));
  }
}
