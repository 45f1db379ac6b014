import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion, PageOf, type Page } from '../../platform/http/answers.js';
import { PageQuery } from '../../platform/http/pages.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { FindQuery } from './dto/customer.request.js';
import {
  AddVehicleRequest,
  ChangeOwnerRequest,
  ChangeVehicleRequest,
  RecordOdometerRequest,
} from './dto/vehicle.request.js';
import { OdometerReadingResponse, VehicleDetailResponse, VehicleResponse } from './dto/vehicle.response.js';
import { odometerReadings } from './queries/odometer-readings.query.js';
import { vehicleById } from './queries/vehicle.query.js';
import { findVehicles } from './queries/vehicles.query.js';
import { addVehicle } from './use-cases/add-vehicle.js';
import { changeOwner } from './use-cases/change-owner.js';
import { changeVehicle } from './use-cases/change-vehicle.js';
import { recordOdometer } from './use-cases/record-odometer.js';

@ApiTags('Customers and vehicles')
@Controller('vehicles')
export class VehiclesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('customer.read')
  @Answers(PageOf(VehicleResponse))
  @ApiOperation({ summary: 'Vehicles: the newest first, or the best match for `q` first' })
  find(@Ctx() ctx: RequestContext, @Query() query: FindQuery): Promise<Page<VehicleResponse>> {
    return this.uow.read(ctx, (tx) => findVehicles(tx, query));
  }

  @Post()
  @May('vehicle.write')
  @Creates(VehicleDetailResponse)
  @ApiOperation({ summary: 'Add a vehicle of a customer' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddVehicleRequest): Promise<VehicleDetailResponse> {
    return this.uow.run(ctx, (tx) => addVehicle(tx, body));
  }

  @Get(':id')
  @May('customer.read')
  @Answers(VehicleDetailResponse)
  @ApiOperation({ summary: 'One vehicle with its last odometer reading and its owners' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<VehicleDetailResponse> {
    return this.uow.read(ctx, (tx) => vehicleById(tx, id));
  }

  @Patch(':id')
  @May('vehicle.write')
  @NeedsVersion()
  @Answers(VehicleDetailResponse)
  @ApiOperation({ summary: 'Change what is known of a vehicle' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeVehicleRequest,
  ): Promise<VehicleDetailResponse> {
    return this.uow.run(ctx, (tx) => changeVehicle(tx, id, version, body));
  }

  @Post(':id/ownerships')
  @May('customer.write')
  @Creates(VehicleDetailResponse)
  @ApiOperation({ summary: 'The vehicle belongs to another customer from now on' })
  changeOwner(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: ChangeOwnerRequest,
  ): Promise<VehicleDetailResponse> {
    return this.uow.run(ctx, (tx) => changeOwner(tx, id, body.customerId));
  }

  @Get(':id/odometer-readings')
  @May('customer.read')
  @Answers(PageOf(OdometerReadingResponse))
  @ApiOperation({ summary: 'The odometer readings, newest first' })
  odometer(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Query() query: PageQuery,
  ): Promise<Page<OdometerReadingResponse>> {
    return this.uow.read(ctx, (tx) => odometerReadings(tx, id, query));
  }

  @Post(':id/odometer-readings')
  @May('vehicle.write')
  @Creates(OdometerReadingResponse)
  @ApiOperation({ summary: 'Record an odometer reading; it is never changed' })
  record(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: RecordOdometerRequest,
  ): Promise<OdometerReadingResponse> {
    return this.uow.run(ctx, (tx) => recordOdometer(tx, { ...body, vehicleId: id, occasion: 'other' }));
  }
}
