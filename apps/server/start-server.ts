import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { pino, type Logger } from 'pino';
import { AppModule } from './app.module.js';
import { entities } from './entities.js';
import { Clock } from './platform/clock.js';
import type { Config } from './platform/config.js';
import { openDatabase } from './platform/database/open-database.js';
import { PgListener } from './platform/database/pg-listener.js';
import { equip } from './platform/http/equip.js';
import { LIVE_CHANNEL } from './platform/live/live-hub.js';

export interface RunningServer {
  readonly app: NestFastifyApplication;
  readonly url: string;
  readonly migrated: readonly string[];
  stop(): Promise<void>;
}

const BODY_LIMIT = 1_048_576;

/** Opens the database, builds the application and listens. `stop` undoes it in the other order. */
export async function startServer(
  config: Config,
  given: { clock?: Clock; log?: Logger } = {},
): Promise<RunningServer> {
  const log = given.log ?? pino({ level: config.logLevel });
  const clock = given.clock ?? new Clock(config.clockRate);
  const database = await openDatabase(config, entities);
  const listener = new PgListener(database.connection);
  try {
    await listener.connect();
    await listener.listen(LIVE_CHANNEL);
    const app = await NestFactory.create<NestFastifyApplication>(
      AppModule.with({ config, clock, log, listener }, database.options),
      // An open event stream would otherwise keep the server from ever closing.
      new FastifyAdapter({
        forceCloseConnections: true,
        bodyLimit: BODY_LIMIT,
        trustProxy: config.production,
      }),
      { logger: ['error', 'warn'], abortOnError: false },
    );
    await equip(app, config);
    await app.listen(config.port, config.host);
    return {
      app,
      url: await app.getUrl(),
      migrated: database.migrated,
      stop: async () => {
        await app.close();
        await database.stop();
      },
    };
  } catch (error) {
    await listener.close();
    await database.stop();
    throw error;
  }
}
