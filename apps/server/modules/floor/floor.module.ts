import { Module } from '@nestjs/common';
import { BaysController } from './bays.controller.js';

@Module({ controllers: [BaysController] })
export class FloorModule {}
