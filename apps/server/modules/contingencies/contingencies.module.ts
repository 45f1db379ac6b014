import { Module } from '@nestjs/common';
import { ContingenciesController } from './contingencies.controller.js';

@Module({ controllers: [ContingenciesController] })
export class ContingenciesModule {}
