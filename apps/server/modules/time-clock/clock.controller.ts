import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import {
  ClockIndirectRequest,
  ClockOnRequest,
  ClockPauseRequest,
  ClockSwitchRequest,
  CloseEntryRequest,
  CorrectClockEntryRequest,
  EntriesQuery,
} from './dto/clock.request.js';
import { ClockActResponse, ClockEntryResponse, ClockNowResponse } from './dto/clock.response.js';
import { clockEntries } from './queries/clock-entries.query.js';
import { clockNow } from './queries/clock-now.query.js';
import { clockIndirect } from './use-cases/clock-indirect.js';
import { clockOff } from './use-cases/clock-off.js';
import { clockOn } from './use-cases/clock-on.js';
import { clockSwitch } from './use-cases/clock-switch.js';
import { closeClockEntry } from './use-cases/close-clock-entry.js';
import { correctClockEntry } from './use-cases/correct-clock-entry.js';

@ApiTags('Time clock')
@Controller('clock')
export class ClockController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post('on')
  @May('clock.own')
  @Creates(ClockActResponse)
  @ApiOperation({
    summary: 'Begin to work on a work order',
    description:
      'Takes it if nobody holds it. Refused, with the reason in words, where the owner has not agreed, somebody else holds it or something holds it up.',
  })
  on(@Ctx() ctx: RequestContext, @Body() body: ClockOnRequest): Promise<ClockActResponse> {
    return this.uow.run(ctx, (tx) => clockOn(tx, body));
  }

  @Post('off')
  @May('clock.own')
  @Acts(ClockActResponse)
  @ApiOperation({ summary: 'Stop the clock' })
  off(@Ctx() ctx: RequestContext): Promise<ClockActResponse> {
    return this.uow.run(ctx, (tx) => clockOff(tx, 'off', null));
  }

  @Post('pause')
  @May('clock.own')
  @Acts(ClockActResponse)
  @ApiOperation({ summary: 'Stop the clock and say why the work stops here' })
  pause(@Ctx() ctx: RequestContext, @Body() body: ClockPauseRequest): Promise<ClockActResponse> {
    return this.uow.run(ctx, (tx) => clockOff(tx, 'pause', body.reason));
  }

  @Post('switch')
  @May('clock.own')
  @Creates(ClockActResponse)
  @ApiOperation({ summary: 'Go over to another work order or to indirect time, at one instant' })
  switch(@Ctx() ctx: RequestContext, @Body() body: ClockSwitchRequest): Promise<ClockActResponse> {
    return this.uow.run(ctx, (tx) => clockSwitch(tx, body));
  }

  @Post('indirect')
  @May('clock.own')
  @Creates(ClockActResponse)
  @ApiOperation({ summary: 'Begin time that belongs to no work order' })
  indirect(@Ctx() ctx: RequestContext, @Body() body: ClockIndirectRequest): Promise<ClockActResponse> {
    return this.uow.run(ctx, (tx) => clockIndirect(tx, body.kind));
  }

  @Get('current')
  @May('clock.own')
  @Answers(ClockNowResponse)
  @ApiOperation({ summary: 'What my clock is on, and whether I am in' })
  current(@Ctx() ctx: RequestContext): Promise<ClockNowResponse> {
    return this.uow.read(ctx, clockNow);
  }

  @Get('entries')
  @May('clock.own')
  @Answers(PageOf(ClockEntryResponse))
  @ApiOperation({ summary: 'Clock entries, the newest first; superseded ones are there, marked' })
  entries(@Ctx() ctx: RequestContext, @Query() query: EntriesQuery): Promise<Page<ClockEntryResponse>> {
    return this.uow.read(ctx, (tx) => clockEntries(tx, query));
  }

  @Post('entries/:id/close')
  @May('clock.close-for-other')
  @Acts(ClockEntryResponse)
  @ApiOperation({ summary: 'Stop a clock that somebody forgot' })
  close(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CloseEntryRequest,
  ): Promise<ClockEntryResponse> {
    return this.uow.run(ctx, (tx) => closeClockEntry(tx, id, body));
  }

  @Post('entries/:id/corrections')
  @May('clock.correct')
  @Creates(ClockEntryResponse)
  @ApiOperation({ summary: 'Correct a clock entry by a new one that says why' })
  correct(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CorrectClockEntryRequest,
  ): Promise<ClockEntryResponse> {
    return this.uow.run(ctx, (tx) => correctClockEntry(tx, id, body));
  }
}
