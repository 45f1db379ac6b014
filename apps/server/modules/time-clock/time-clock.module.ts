import { Module } from '@nestjs/common';
import { AttendanceController } from './attendance.controller.js';
import { ClockController } from './clock.controller.js';

@Module({ controllers: [ClockController, AttendanceController] })
export class TimeClockModule {}
