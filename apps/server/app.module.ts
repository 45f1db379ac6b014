import { DynamicModule, Module } from '@nestjs/common';
import { TypeOrmModule } from '@nestjs/typeorm';
import type { DataSourceOptions } from 'typeorm';
import { AboutModule } from './modules/about/about.module.js';
import { BoardModule } from './modules/board/board.module.js';
import { CatalogueModule } from './modules/catalogue/catalogue.module.js';
import { ApprovalsModule } from './modules/approvals/approvals.module.js';
import { ContingenciesModule } from './modules/contingencies/contingencies.module.js';
import { EstimatesModule } from './modules/estimates/estimates.module.js';
import { FloorModule } from './modules/floor/floor.module.js';
import { InspectionsModule } from './modules/inspections/inspections.module.js';
import { PlanningModule } from './modules/planning/planning.module.js';
import { RepairOrdersModule } from './modules/repair-orders/repair-orders.module.js';
import { IdentityModule } from './modules/identity/identity.module.js';
import { ReservationsModule } from './modules/reservations/reservations.module.js';
import { ReviewModule } from './modules/review/review.module.js';
import { SchedulingModule } from './modules/scheduling/scheduling.module.js';
import { TimeClockModule } from './modules/time-clock/time-clock.module.js';
import { WorkOrdersModule } from './modules/work-orders/work-orders.module.js';
import { WhatIfsModule } from './modules/what-ifs/what-ifs.module.js';
import { VehiclesModule } from './modules/vehicles/vehicles.module.js';
import { PlatformModule, type PlatformParts } from './platform/platform.module.js';

/** All modules, in import order: a module may use those above it, through their index.ts. */
@Module({})
export class AppModule {
  static with(parts: PlatformParts, database: DataSourceOptions): DynamicModule {
    return {
      module: AppModule,
      imports: [
        TypeOrmModule.forRoot({ ...database, retryAttempts: 0 }),
        PlatformModule.with(parts),
        AboutModule,
        IdentityModule,
        VehiclesModule,
        FloorModule,
        CatalogueModule,
        RepairOrdersModule,
        InspectionsModule,
        EstimatesModule,
        WorkOrdersModule,
        ApprovalsModule,
        ContingenciesModule,
        SchedulingModule,
        TimeClockModule,
        PlanningModule,
        ReservationsModule,
        WhatIfsModule,
        BoardModule,
        ReviewModule,
      ],
    };
  }
}
