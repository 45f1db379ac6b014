import { Module } from '@nestjs/common';
import { CatalogueController } from './catalogue.controller.js';
import { OperationsController } from './operations.controller.js';
import { PackagesController } from './packages.controller.js';
import { StepsController } from './steps.controller.js';

@Module({ controllers: [CatalogueController, OperationsController, StepsController, PackagesController] })
export class CatalogueModule {}
