import { Module } from '@nestjs/common';
import { CustomersController } from './customers.controller.js';
import { SearchController } from './search.controller.js';
import { VehiclesController } from './vehicles.controller.js';

@Module({ controllers: [CustomersController, VehiclesController, SearchController] })
export class VehiclesModule {}
