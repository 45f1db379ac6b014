import { DynamicModule, Module } from '@nestjs/common';
import { TypeOrmModule } from '@nestjs/typeorm';
import type { DataSourceOptions } from 'typeorm';
import { AboutModule } from './modules/about/about.module.js';
import { FloorModule } from './modules/floor/floor.module.js';
import { IdentityModule } from './modules/identity/identity.module.js';
import { PlatformModule, type PlatformParts } from './platform/platform.module.js';

/** All modules, in import order: a module may use those above it, through their index.ts. */
@Module({})
export class AppModule {
  static with(parts: PlatformParts, database: DataSourceOptions): DynamicModule {
    return {
      module: AppModule,
      imports: [
        TypeOrmModule.forRoot({ ...database, retryAttempts: 0 }),
        PlatformModule.with(parts),
        AboutModule,
        IdentityModule,
        FloorModule,
      ],
    };
  }
}
