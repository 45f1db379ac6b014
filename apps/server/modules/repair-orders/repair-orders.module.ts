import { Module } from '@nestjs/common';
import { RepairOrdersController } from './repair-orders.controller.js';

@Module({ controllers: [RepairOrdersController] })
export class RepairOrdersModule {}
