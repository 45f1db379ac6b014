import 'reflect-metadata';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { pino, type Logger } from 'pino';
import { AppModule } from './app.module.js';
import { seedDemoShop } from './demo/seed-demo-shop.js';
import { entities } from './entities.js';
import { LinkTokens } from './modules/estimates/index.js';
import { Clock } from './platform/clock.js';
import type { Config } from './platform/config.js';
import { openDatabase } from './platform/database/open-database.js';
import { PgListener } from './platform/database/pg-listener.js';
import { UnitOfWork } from './platform/database/unit-of-work.js';
import { equip } from './platform/http/equip.js';
import { clientErrorHandler, frameworkErrors } from './platform/http/framework-errors.js';
import { LIVE_CHANNEL } from './platform/live/live-hub.js';
import { QueueRunner } from './platform/queue/index.js';

export interface RunningServer {
  readonly app: NestFastifyApplication;
  readonly url: string;
  readonly migrated: readonly string[];
  stop(): Promise<void>;
}

const BODY_LIMIT = 1_048_576;
/** Requests that are still under way this long after the stop was asked for are cut off. */
const STOP_LIMIT_MS = 8_000;

/** Opens the database, builds the application and listens. `stop` undoes it in the other order. */
export async function startServer(
  config: Config,
  given: { clock?: Clock; log?: Logger } = {},
): Promise<RunningServer> {
  const log = given.log ?? pino({ level: config.logLevel });
  const clock = given.clock ?? new Clock(config.clockRate, config.clockSince);
  const database = await openDatabase(config, log, entities);
  const listener = new PgListener(database.straight);
  try {
    await listener.connect();
    await listener.listen(LIVE_CHANNEL);
    const app = await NestFactory.create<NestFastifyApplication>(
      AppModule.with({ config, clock, log, listener, straight: database.straight }, database.options),
      new FastifyAdapter({
        // What is under way is answered; event streams are ended by the hub, and `stop` does not wait for ever.
        forceCloseConnections: 'idle',
        bodyLimit: BODY_LIMIT,
        // Each proxy of ours adds the last address. Believing one more would let a caller write an address of its choice.
        trustProxy: config.trustedProxies > 0 && ((_address, hop) => hop < config.trustedProxies),
        frameworkErrors,
        clientErrorHandler,
      }),
      { logger: ['error', 'warn'], abortOnError: false },
    );
    await equip(app, config);
    if (config.demoShop && database.isEmpty) await seedDemoShop(app.get(UnitOfWork), app.get(LinkTokens));
    await app.listen(config.port, config.host);
    const jobs = app.get(QueueRunner);
    if (config.backgroundWork) jobs.start();
    return {
      app,
      url: await app.getUrl(),
      migrated: database.migrated,
      stop: async () => {
        await jobs.stop();
        const impatient = setTimeout(() => app.getHttpServer().closeAllConnections(), STOP_LIMIT_MS);
        await app.close();
        clearTimeout(impatient);
        await database.stop();
      },
    };
  } catch (error) {
    await listener.close();
    await database.stop();
    throw error;
  }
}
