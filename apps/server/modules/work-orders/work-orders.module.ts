import { Module } from '@nestjs/common';
import { PartsController } from './parts.controller.js';
import { WorkOrdersController } from './work-orders.controller.js';

@Module({ controllers: [WorkOrdersController, PartsController] })
export class WorkOrdersModule {}
