import { Body, Controller, Delete, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { CalendarQuery, ChangeAbsenceRequest, RecordAbsenceRequest } from './dto/calendar.request.js';
import { AbsenceResponse, AbsencesResponse } from './dto/calendar.response.js';
import { absencesOf } from './queries/calendar.query.js';
import { changeAbsence, withdrawAbsence } from './use-cases/change-absence.js';
import { recordAbsence } from './use-cases/record-absence.js';

@ApiTags('Floor')
@Controller('technicians/:id/absences')
export class AbsencesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(AbsencesResponse)
  @ApiOperation({ summary: 'When a technician is away' })
  list(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Query() query: CalendarQuery,
  ): Promise<AbsencesResponse> {
    return this.uow.read(ctx, (tx) => absencesOf(tx, id, query));
  }

  @Post()
  @May('calendar.write')
  @Creates(AbsenceResponse)
  @ApiOperation({ summary: 'Record that a technician is away; the answer names what is planned for them' })
  record(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: RecordAbsenceRequest,
  ): Promise<AbsenceResponse> {
    return this.uow.run(ctx, (tx) => recordAbsence(tx, id, body));
  }

  @Patch(':absenceId')
  @May('calendar.write')
  @NeedsVersion()
  @Answers(AbsenceResponse)
  @ApiOperation({ summary: 'They are back earlier or later' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Id('absenceId') absenceId: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeAbsenceRequest,
  ): Promise<AbsenceResponse> {
    return this.uow.run(ctx, (tx) => changeAbsence(tx, id, absenceId, version, body));
  }

  @Delete(':absenceId')
  @May('calendar.write')
  @NeedsVersion()
  @Empties()
  @ApiOperation({ summary: 'Withdraw an absence: they come after all' })
  withdraw(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Id('absenceId') absenceId: string,
    @IfMatch() version: number | '*',
  ): Promise<void> {
    return this.uow.run(ctx, (tx) => withdrawAbsence(tx, id, absenceId, version));
  }
}
