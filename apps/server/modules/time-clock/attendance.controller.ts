import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { CloseEntryRequest, CorrectAttendanceRequest, EntriesQuery } from './dto/clock.request.js';
import { AttendanceEntryResponse } from './dto/clock.response.js';
import { attendance } from './queries/attendance.query.js';
import { closeAttendance } from './use-cases/close-attendance.js';
import { comeIn } from './use-cases/come-in.js';
import { correctAttendance } from './use-cases/correct-attendance.js';
import { goOut } from './use-cases/go-out.js';

@ApiTags('Attendance')
@Controller('attendance')
export class AttendanceController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post('in')
  @May('attendance.own')
  @Creates(AttendanceEntryResponse)
  @ApiOperation({ summary: 'I am in the building' })
  in(@Ctx() ctx: RequestContext): Promise<AttendanceEntryResponse> {
    return this.uow.run(ctx, comeIn);
  }

  @Post('out')
  @May('attendance.own')
  @Acts(AttendanceEntryResponse)
  @ApiOperation({ summary: 'I leave; not while my clock is running' })
  out(@Ctx() ctx: RequestContext): Promise<AttendanceEntryResponse> {
    return this.uow.run(ctx, goOut);
  }

  @Get()
  @May('attendance.own')
  @Answers(PageOf(AttendanceEntryResponse))
  @ApiOperation({ summary: 'Attendance, the newest first; superseded entries are there, marked' })
  list(@Ctx() ctx: RequestContext, @Query() query: EntriesQuery): Promise<Page<AttendanceEntryResponse>> {
    return this.uow.read(ctx, (tx) => attendance(tx, query));
  }

  @Post(':id/close')
  @May('clock.close-for-other')
  @Acts(AttendanceEntryResponse)
  @ApiOperation({ summary: 'Somebody went home without saying so' })
  close(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CloseEntryRequest,
  ): Promise<AttendanceEntryResponse> {
    return this.uow.run(ctx, (tx) => closeAttendance(tx, id, body));
  }

  @Post(':id/corrections')
  @May('clock.correct')
  @Creates(AttendanceEntryResponse)
  @ApiOperation({ summary: 'Correct an attendance by a new entry that says why' })
  correct(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CorrectAttendanceRequest,
  ): Promise<AttendanceEntryResponse> {
    return this.uow.run(ctx, (tx) => correctAttendance(tx, id, body));
  }
}
