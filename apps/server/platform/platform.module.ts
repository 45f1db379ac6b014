import { join } from 'node:path';
import { DynamicModule, Global, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR } from '@nestjs/core';
import type pg from 'pg';
import type { Logger } from 'pino';
import { Clock } from './clock.js';
import type { Config } from './config.js';
import { PgListener } from './database/pg-listener.js';
import { UnitOfWork } from './database/unit-of-work.js';
import { DiskPhotoStore, PhotoIntake, PhotoStore } from './files/index.js';
import { AccessTokens } from './http/access-token.js';
import { AuthGuard } from './http/auth-guard.js';
import { EtagInterceptor } from './http/etag-interceptor.js';
import { ProblemFilter } from './http/problem-filter.js';
import { LiveController } from './live/live.controller.js';
import { LiveHub } from './live/live-hub.js';
import { QueueRunner, QueueTasks, Reactions } from './queue/index.js';
import { CONFIG, LOGGER } from './tokens.js';

export interface PlatformParts {
  readonly config: Config;
  readonly clock: Clock;
  readonly log: Logger;
  readonly listener: PgListener;
  /** Straight to the database server, for what needs a session of its own. */
  readonly straight: pg.ClientConfig;
}

/** What every module may use: configuration, clock, unit of work, tokens, live events, jobs. */
@Global()
@Module({})
export class PlatformModule {
  static with(parts: PlatformParts): DynamicModule {
    return {
      module: PlatformModule,
      controllers: [LiveController],
      providers: [
        { provide: CONFIG, useValue: parts.config },
        { provide: LOGGER, useValue: parts.log },
        { provide: Clock, useValue: parts.clock },
        { provide: PgListener, useValue: parts.listener },
        { provide: AccessTokens, useFactory: () => new AccessTokens(parts.config.jwtSecret) },
        { provide: PhotoStore, useFactory: () => new DiskPhotoStore(join(parts.config.dataDir, 'photos')) },
        {
          provide: PhotoIntake,
          useFactory: (store: PhotoStore) => photoIntake(store, parts),
          inject: [PhotoStore],
        },
        { provide: APP_FILTER, useFactory: () => new ProblemFilter(parts.log) },
        { provide: APP_GUARD, useClass: AuthGuard },
        { provide: APP_INTERCEPTOR, useClass: EtagInterceptor },
        QueueTasks,
        Reactions,
        {
          provide: QueueRunner,
          useFactory: (tasks: QueueTasks) => new QueueRunner(parts.straight, tasks, parts.log),
          inject: [QueueTasks],
        },
        UnitOfWork,
        LiveHub,
      ],
      exports: [
        ...[CONFIG, LOGGER, Clock, AccessTokens, UnitOfWork, LiveHub, PhotoStore, PhotoIntake],
        ...[QueueRunner, QueueTasks, Reactions],
      ],
    };
  }
}

async function photoIntake(store: PhotoStore, { config, clock }: PlatformParts): Promise<PhotoIntake> {
  const intake = new PhotoIntake(store, join(config.dataDir, 'incoming'));
  await intake.sweep(clock.wall());
  return intake;
}
