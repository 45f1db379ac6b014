import { Module } from '@nestjs/common';
import { BaysController } from './bays.controller.js';
import { SpecialToolsController } from './special-tools.controller.js';
import { TechniciansController } from './technicians.controller.js';

@Module({ controllers: [BaysController, SpecialToolsController, TechniciansController] })
export class FloorModule {}
