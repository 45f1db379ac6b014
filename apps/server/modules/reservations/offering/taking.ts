import { Injectable } from '@nestjs/common';
import { fail, ok, type Result } from '#libs/kernel';
import type { PlanRepairOrder } from '#libs/plan';
import type { RequestContext } from '../../../platform/context.js';
import type { Tx } from '../../../platform/database/tx.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import {
  loadShopPlan,
  makeRoom,
  PlanContributors,
  PlanningThread,
  withVisitor,
  type RoomFound,
  type ShopPlan,
} from '../../planning/index.js';
import type { ReservationRow } from '../data/reservation.entity.js';
import type { TakeReservationRequest } from '../dto/reservation.request.js';
import type { ReservationResponse } from '../dto/reservation.response.js';
import { orderOfReservation } from '../queries/contribution.query.js';
import { workWithoutPlace } from '../queries/work-without-place.query.js';
import { takeReservation, type Rearrange } from '../use-cases/take-reservation.js';

/** How often the plan may go on between being thought about and being written. */
const ATTEMPTS = 3;

/** A question that is put before a transaction writes: null where nobody has to move. */
interface Asked {
  readonly shop: ShopPlan;
  readonly order: PlanRepairOrder;
}

/**
 * Takes a reservation. Where its offer moves others, the plan is made anew with the new car first, with no transaction
 * open; what was found is then held against the floor as it is and written with everything else.
 */
@Injectable()
export class Taking {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly thread: PlanningThread,
    private readonly contributors: PlanContributors,
  ) {}

  async take(ctx: RequestContext, id: string, request: TakeReservationRequest): Promise<ReservationResponse> {
    for (let attempt = 1; ; attempt += 1) {
      const room = await this.roomFor(ctx, id, request);
      try {
        return await this.uow.run(ctx, (tx) =>
          takeReservation(tx, id, request, (within, row) => this.rearrange(within, row, room)),
        );
      } catch (error) {
        const isOutdated = error instanceof ProblemError && error.fault.code === 'plan-outdated';
        if (!isOutdated || attempt >= ATTEMPTS) throw error;
      }
    }
  }

  /** A plan with the car in it; null where no place has to be made, or none can be. */
  private async roomFor(
    ctx: RequestContext,
    id: string,
    request: TakeReservationRequest,
  ): Promise<RoomFound | null> {
    const asked = await this.uow.read(ctx, (tx) => this.question(tx, id, request));
    if (asked === null) return null;
    const found = await this.thread.ask({ what: 'replan', problem: asked.shop.problem });
    if (!found.ok) throw new ProblemError(found.fault);
    const lost = found.value.changes.some(
      ({ kind, operation }) => kind === 'taken-out' && !isOwn(asked, operation),
    );
    return !lost && isInTime(asked, found.value.assignments)
      ? { shop: asked.shop, answer: found.value }
      : null;
  }

  private async question(tx: Tx, id: string, request: TakeReservationRequest): Promise<Result<Asked | null>> {
    if ((await workWithoutPlace(tx, id)).length === 0) return ok(null);
    const shop = await loadShopPlan(tx, this.contributors.all);
    const order = await orderOfReservation(tx, shop.horizon, id, request.promisedAt);
    return ok(order === null ? null : { shop: withVisitor(shop, order), order });
  }

  private async rearrange(tx: Tx, row: ReservationRow, room: RoomFound | null): ReturnType<Rearrange> {
    if (room === null)
      return fail(
        'place-not-possible',
        'There is no room for it any more, even if others move, or it would be ready later than was told. Ask for offers again.',
      );
    const order = room.shop.problem.repairOrders.find(({ id }) => id === row.id);
    if (order === undefined) throw new Error('the shop that was asked about has the reservation');
    return makeRoom(
      tx,
      room,
      { order, words: `Reservation ${row.number} was taken.`, subjects: { reservationId: row.id } },
      this.contributors.all,
    );
  }
}

const isOwn = ({ order }: Asked, operation: string): boolean =>
  order.operations.some(({ id }) => id === operation);

/** All of its work has a place, and it is ready when it was told. */
function isInTime(
  asked: Asked,
  assignments: readonly { readonly operation: string; readonly end: number }[],
): boolean {
  const mine = assignments.filter(({ operation }) => isOwn(asked, operation));
  const promised = asked.order.promised ?? Infinity;
  return mine.length === asked.order.operations.length && mine.every(({ end }) => end <= promised);
}
