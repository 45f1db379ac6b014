import { Module, type OnModuleInit } from '@nestjs/common';
import { ok } from '#libs/kernel';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { QueueTasks } from '../../platform/queue/index.js';
import { PlanContributors, PlanningModule } from '../planning/index.js';
import { KeptForArrivals, RepairOrdersModule } from '../repair-orders/index.js';
import { freeReservedPlaces } from '../scheduling/index.js';
import { EXPIRY_TASK } from './data/expiry.js';
import { Offers } from './offering/offers.js';
import { Taking } from './offering/taking.js';
import { OffersController } from './offers.controller.js';
import { reservedWork } from './queries/contribution.query.js';
import { ReservationsController } from './reservations.controller.js';
import { findKept } from './use-cases/find-kept.js';

@Module({
  imports: [PlanningModule, RepairOrdersModule],
  controllers: [OffersController, ReservationsController],
  providers: [Offers, Taking],
})
export class ReservationsModule implements OnModuleInit {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly tasks: QueueTasks,
    private readonly contributors: PlanContributors,
    private readonly kept: KeptForArrivals,
  ) {}

  onModuleInit(): void {
    this.contributors.register((tx, horizon) => reservedWork(tx, horizon));
    this.kept.register(findKept);
    this.tasks.add(EXPIRY_TASK, async ({ ctx }) => {
      await this.uow.run(ctx, async (tx) => {
        await freeReservedPlaces(tx, 'none');
        return ok(undefined);
      });
    });
  }
}
