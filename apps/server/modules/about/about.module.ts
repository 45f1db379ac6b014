import { Module } from '@nestjs/common';
import { AboutController } from './about.controller.js';
import { PagesController } from './pages.controller.js';
import { ProblemsController } from './problems.controller.js';

@Module({ controllers: [AboutController, PagesController, ProblemsController] })
export class AboutModule {}
