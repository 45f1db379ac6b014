import { Module } from '@nestjs/common';
import { AbsencesController } from './absences.controller.js';
import { BaysController } from './bays.controller.js';
import { CalendarController } from './calendar.controller.js';
import { ClosuresController } from './closures.controller.js';
import { SpecialToolsController } from './special-tools.controller.js';
import { TechniciansController } from './technicians.controller.js';

@Module({
  controllers: [
    BaysController,
    SpecialToolsController,
    TechniciansController,
    CalendarController,
    AbsencesController,
    ClosuresController,
  ],
})
export class FloorModule {}
