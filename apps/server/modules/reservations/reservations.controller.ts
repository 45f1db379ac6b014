import { Body, Controller, Delete, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import {
  Acts,
  Answers,
  Creates,
  Empties,
  NeedsVersion,
  PageOf,
  type Page,
} from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { PlanContributors } from '../planning/index.js';
import {
  ExtendReservationRequest,
  ReservationsQuery,
  ReserveRequest,
  TakeReservationRequest,
  UseReservationRequest,
} from './dto/reservation.request.js';
import { ReservationResponse } from './dto/reservation.response.js';
import { Taking } from './offering/taking.js';
import { reservationById, reservations } from './queries/reservations.query.js';
import { extendReservation } from './use-cases/extend-reservation.js';
import { giveBackReservation } from './use-cases/give-back-reservation.js';
import { reserve } from './use-cases/reserve.js';
import { useReservation } from './use-cases/use-reservation.js';

@ApiTags('Reservations')
@Controller('reservations')
export class ReservationsController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly contributors: PlanContributors,
    private readonly taking: Taking,
  ) {}

  @Post()
  @May('reservation.write')
  @Creates(ReservationResponse)
  @ApiOperation({
    summary: 'Hold the places of an offer while the customer is on the phone',
    description:
      'The question and the places are checked afresh. Exactly one holds a place: whoever comes second is told who has it and until when. What an offer moves stays where it is until the reservation is taken.',
  })
  reserve(@Ctx() ctx: RequestContext, @Body() body: ReserveRequest): Promise<ReservationResponse> {
    return this.uow.run(ctx, (tx) => reserve(tx, body, this.contributors.all));
  }

  @Get()
  @May('reservation.read')
  @Answers(PageOf(ReservationResponse))
  @ApiOperation({ summary: 'Reservations that are held or taken, in the order of their arrival' })
  list(@Ctx() ctx: RequestContext, @Query() query: ReservationsQuery): Promise<Page<ReservationResponse>> {
    return this.uow.read(ctx, (tx) => reservations(tx, query));
  }

  @Get(':id')
  @May('reservation.read')
  @Answers(ReservationResponse)
  @ApiOperation({ summary: 'One reservation, also when it is over' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<ReservationResponse> {
    return this.uow.read(ctx, (tx) => reservationById(tx, id));
  }

  @Patch(':id')
  @May('reservation.write')
  @NeedsVersion()
  @Answers(ReservationResponse)
  @ApiOperation({ summary: 'Hold it longer, once' })
  extend(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ExtendReservationRequest,
  ): Promise<ReservationResponse> {
    return this.uow.run(ctx, (tx) => extendReservation(tx, id, version, body.minutes));
  }

  @Post(':id/take')
  @May('reservation.write')
  @Acts(ReservationResponse)
  @ApiOperation({
    summary: 'Take it: who comes, under which number, with what, and by when it was promised',
    description:
      'Of taking it and its running out exactly one happens. Where the offer moves others, the plan is made anew with the new vehicle; `place-not-possible` where that no longer works.',
  })
  take(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: TakeReservationRequest,
  ): Promise<ReservationResponse> {
    return this.taking.take(ctx, id, body);
  }

  @Post(':id/use')
  @May('reservation.write')
  @Acts(ReservationResponse)
  @ApiOperation({
    summary: 'The vehicle has come: say which repair order was opened for it',
    description: 'The places are kept until the work orders of this repair order take them over.',
  })
  use(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: UseReservationRequest,
  ): Promise<ReservationResponse> {
    return this.uow.run(ctx, (tx) => useReservation(tx, id, body.repairOrderId.toLowerCase()));
  }

  @Delete(':id')
  @May('reservation.write')
  @NeedsVersion()
  @Empties()
  @ApiOperation({ summary: 'Give it back: its places are for everybody again' })
  giveBack(@Ctx() ctx: RequestContext, @Id() id: string, @IfMatch() version: number | '*'): Promise<void> {
    return this.uow.run(ctx, (tx) => giveBackReservation(tx, id, version));
  }
}
