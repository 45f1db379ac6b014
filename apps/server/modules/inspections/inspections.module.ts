import { Module } from '@nestjs/common';
import { BaseRatesController } from './base-rates.controller.js';
import { FindingsController } from './findings.controller.js';
import { InspectionsController } from './inspections.controller.js';
import { PhotosController } from './photos.controller.js';
import { TemplatesController } from './templates.controller.js';

@Module({
  controllers: [
    TemplatesController,
    InspectionsController,
    FindingsController,
    PhotosController,
    BaseRatesController,
  ],
})
export class InspectionsModule {}
