import { Body, Controller, Get, Patch, Post, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import {
  AddStaffRequest,
  ChangeStaffRequest,
  SetPasswordRequest,
  SetPinRequest,
} from './dto/staff.request.js';
import { StaffListResponse, StaffMemberResponse } from './dto/staff.response.js';
import { allStaff, staffMember } from './queries/staff.query.js';
import { presentPasswordRight } from './sign-in/sign-in-faults.js';
import { addStaffMember } from './use-cases/add-staff-member.js';
import { changeStaffMember } from './use-cases/change-staff-member.js';
import { setPassword } from './use-cases/set-password.js';
import { setPin } from './use-cases/set-pin.js';

@ApiTags('Staff')
@Controller('staff')
export class StaffController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('staff.manage')
  @Answers(StaffListResponse)
  @ApiOperation({ summary: 'Everybody who works or worked here' })
  list(@Ctx() ctx: RequestContext): Promise<StaffListResponse> {
    return this.uow.read(ctx, allStaff);
  }

  @Post()
  @May('staff.manage')
  @Creates(StaffMemberResponse)
  @ApiOperation({ summary: 'Add somebody; password and PIN are set apart' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddStaffRequest): Promise<StaffMemberResponse> {
    return this.uow.run(ctx, (tx) => addStaffMember(tx, body));
  }

  @Get(':id')
  @May('staff.manage')
  @Answers(StaffMemberResponse)
  @ApiOperation({ summary: 'One member of staff' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<StaffMemberResponse> {
    return this.uow.read(ctx, (tx) => staffMember(tx, id));
  }

  @Patch(':id')
  @May('staff.manage')
  @NeedsVersion()
  @Answers(StaffMemberResponse)
  @ApiOperation({ summary: 'Change name, address or roles, or deactivate' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeStaffRequest,
  ): Promise<StaffMemberResponse> {
    return this.uow.run(ctx, (tx) => changeStaffMember(tx, id, version, body));
  }

  @Put(':id/password')
  @May('session.own')
  @Empties()
  @ApiOperation({ summary: "Set the own password with the present one, or somebody else's as a manager" })
  async password(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: SetPasswordRequest,
  ): Promise<void> {
    presentPasswordRight(await this.uow.run(ctx, (tx) => setPassword(tx, id, body)));
  }

  @Put(':id/pin')
  @May('staff.manage')
  @Empties()
  @ApiOperation({ summary: 'Set the PIN for the bay tablets, or take it away' })
  pin(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: SetPinRequest): Promise<void> {
    return this.uow.run(ctx, (tx) => setPin(tx, id, body.pin));
  }
}
