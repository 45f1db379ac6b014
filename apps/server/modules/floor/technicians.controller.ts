import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { ListOf } from '../../platform/http/fields.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { SetShiftsRequest, SetSkillsRequest } from './dto/technician.request.js';
import { ShiftsResponse, SkillsResponse, TechnicianResponse } from './dto/technician.response.js';
import { allTechnicians, shiftsOf, skillsOf } from './queries/technicians.query.js';
import { setShifts } from './use-cases/set-shifts.js';
import { setSkills } from './use-cases/set-skills.js';

class TechniciansResponse {
  @ListOf(() => TechnicianResponse) items: TechnicianResponse[];
}

@ApiTags('Floor')
@Controller('technicians')
export class TechniciansController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(TechniciansResponse)
  @ApiOperation({ summary: 'The technicians with their skills and weekly shifts' })
  list(@Ctx() ctx: RequestContext): Promise<TechniciansResponse> {
    return this.uow.read(ctx, allTechnicians);
  }

  @Get(':id/skills')
  @May('board.read')
  @Answers(SkillsResponse)
  @ApiOperation({ summary: 'What a technician can and may do' })
  skills(@Ctx() ctx: RequestContext, @Id() id: string): Promise<SkillsResponse> {
    return this.uow.read(ctx, (tx) => skillsOf(tx, id));
  }

  @Put(':id/skills')
  @May('floor.configure')
  @Answers(SkillsResponse)
  @ApiOperation({ summary: 'Replace the skills of a technician' })
  putSkills(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: SetSkillsRequest,
  ): Promise<SkillsResponse> {
    return this.uow.run(ctx, (tx) => setSkills(tx, id, body));
  }

  @Get(':id/shifts')
  @May('board.read')
  @Answers(ShiftsResponse)
  @ApiOperation({ summary: 'The weekly shifts of a technician' })
  shifts(@Ctx() ctx: RequestContext, @Id() id: string): Promise<ShiftsResponse> {
    return this.uow.read(ctx, (tx) => shiftsOf(tx, id));
  }

  @Put(':id/shifts')
  @May('floor.configure')
  @Answers(ShiftsResponse)
  @ApiOperation({ summary: 'Replace the weekly shifts of a technician' })
  putShifts(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: SetShiftsRequest,
  ): Promise<ShiftsResponse> {
    return this.uow.run(ctx, (tx) => setShifts(tx, id, body));
  }
}
