import { Body, Controller, Delete, Get, Headers, Post } from '@nestjs/common';
import { ApiHeader, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties } from '../../platform/http/answers.js';
import { Ctx, Id, May, OpenToAll } from '../../platform/http/route.js';
import { EnrolDeviceRequest } from './dto/device.request.js';
import { DevicesResponse, EnrolledDeviceResponse, TabletPeopleResponse } from './dto/device.response.js';
import { allDevices } from './queries/devices.query.js';
import { DerivedTokens } from './sign-in/opaque-token.js';
import { PerMinute } from './sign-in/rate-limit.js';
import { Tablets } from './sign-in/tablets.js';
import { enrolDevice } from './use-cases/enrol-device.js';
import { revokeDevice } from './use-cases/revoke-device.js';

@ApiTags('Tablets')
@Controller('devices')
export class DevicesController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly tablets: Tablets,
    private readonly tokens: DerivedTokens,
  ) {}

  @Get()
  @May('device.enrol')
  @Answers(DevicesResponse)
  @ApiOperation({ summary: 'The tablets of the shop, newest first, revoked ones too' })
  list(@Ctx() ctx: RequestContext): Promise<DevicesResponse> {
    return this.uow.read(ctx, allDevices);
  }

  @Post()
  @May('device.enrol')
  @Creates(EnrolledDeviceResponse)
  @ApiOperation({ summary: 'Enrol a tablet; its token is shown this once' })
  async enrol(@Ctx() ctx: RequestContext, @Body() body: EnrolDeviceRequest): Promise<EnrolledDeviceResponse> {
    const tokenOf = (deviceId: string): string => this.tokens.ofDevice(ctx.shopId, deviceId);
    const device = await this.uow.run(ctx, (tx) => enrolDevice(tx, body, tokenOf));
    return { ...device, deviceToken: tokenOf(device.id) };
  }

  @Get('current/people')
  @OpenToAll()
  @PerMinute(120)
  @Answers(TabletPeopleResponse)
  @ApiHeader({ name: 'X-Device-Token', required: true })
  @ApiOperation({ summary: 'Who can sign in with a PIN on this tablet' })
  people(@Headers('x-device-token') deviceToken: string | undefined): Promise<TabletPeopleResponse> {
    return this.tablets.people(deviceToken);
  }

  @Delete(':id')
  @May('device.enrol')
  @Empties()
  @ApiOperation({ summary: 'Revoke a tablet and end the sessions opened on it' })
  revoke(@Ctx() ctx: RequestContext, @Id() id: string): Promise<void> {
    return this.uow.run(ctx, (tx) => revokeDevice(tx, id));
  }
}
