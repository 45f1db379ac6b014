import { Module } from '@nestjs/common';
import { KeptForArrivals } from './opening/kept-for-arrivals.js';
import { RepairOrdersController } from './repair-orders.controller.js';

@Module({
  controllers: [RepairOrdersController],
  providers: [KeptForArrivals],
  exports: [KeptForArrivals],
})
export class RepairOrdersModule {}
