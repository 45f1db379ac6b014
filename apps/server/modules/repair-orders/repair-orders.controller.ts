import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates, NeedsVersion, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import {
  ChangeRepairOrderRequest,
  OpenRepairOrderRequest,
  PickUpRequest,
  RepairOrdersQuery,
} from './dto/repair-order.request.js';
import { RepairOrderResponse, RepairOrderSummaryResponse } from './dto/repair-order.response.js';
import { KeptForArrivals } from './opening/kept-for-arrivals.js';
import { repairOrderById } from './queries/repair-order.query.js';
import { repairOrdersPage } from './queries/repair-orders.query.js';
import { changeRepairOrder } from './use-cases/change-repair-order.js';
import { openRepairOrder } from './use-cases/open-repair-order.js';
import { pickUpVehicle } from './use-cases/pick-up-vehicle.js';

@ApiTags('Repair orders')
@Controller('repair-orders')
export class RepairOrdersController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly kept: KeptForArrivals,
  ) {}

  @Get()
  @May('repair-order.read')
  @Answers(PageOf(RepairOrderSummaryResponse))
  @ApiOperation({ summary: 'Stays of vehicles, the latest drop-off first, each with its stage' })
  list(
    @Ctx() ctx: RequestContext,
    @Query() query: RepairOrdersQuery,
  ): Promise<Page<RepairOrderSummaryResponse>> {
    return this.uow.read(ctx, (tx) => repairOrdersPage(tx, query));
  }

  @Post()
  @May('repair-order.open')
  @Creates(RepairOrderResponse)
  @ApiOperation({
    summary: 'Take a vehicle in',
    description:
      'What is kept for it by a reservation goes with it: its places give way to the real work, and the time that was told on the phone is the promise unless another is given.',
  })
  open(@Ctx() ctx: RequestContext, @Body() body: OpenRepairOrderRequest): Promise<RepairOrderResponse> {
    return this.uow.run(ctx, (tx) => openRepairOrder(tx, body, this.kept.find));
  }

  @Get(':id')
  @May('repair-order.read')
  @Answers(RepairOrderResponse)
  @ApiOperation({ summary: 'One stay: vehicle, customer, stage, counts and warnings' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<RepairOrderResponse> {
    return this.uow.read(ctx, (tx) => repairOrderById(tx, id));
  }

  @Patch(':id')
  @May('repair-order.open')
  @NeedsVersion()
  @Answers(RepairOrderResponse)
  @ApiOperation({ summary: 'Change the concern, the promised time or who pays' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeRepairOrderRequest,
  ): Promise<RepairOrderResponse> {
    return this.uow.run(ctx, (tx) => changeRepairOrder(tx, id, version, body));
  }

  @Post(':id/pick-up')
  @May('repair-order.open')
  @Acts(RepairOrderResponse)
  @ApiOperation({
    summary: 'The vehicle leaves',
    description:
      'Refused while agreed work is not finished and checked. `warnings` repeats what makes the vehicle unsafe: say it to the owner.',
  })
  pickUp(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: PickUpRequest,
  ): Promise<RepairOrderResponse> {
    return this.uow.run(ctx, (tx) => pickUpVehicle(tx, id, body));
  }
}
