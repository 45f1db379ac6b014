import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Config } from '#server/platform/config';
import { CONFIG } from '#server/platform/tokens';
import { freePort, ServerProcess } from '../support/server-process.js';
import { personWith, shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';
import { PlanShopBuilder } from './plan-shop.js';

const ALL_DAY = 1440;

/**
 * One shop on one database, with two built server processes that answer requests and run jobs, and a third one, in the
 * process of the test, that does neither unless it is told to. The clock is the wall's.
 */
export class TwoServers {
  readonly processes: ServerProcess[] = [];
  /** How the database knows who is connected. */
  readonly logins: string[] = [];
  private readonly dataDirs: string[] = [];

  private constructor(
    readonly shop: ShopUnderTest,
    readonly floor: PlanShopBuilder,
  ) {}

  static async open(): Promise<TwoServers> {
    const shop = await shopUnderTest({ now: new Date().toISOString() });
    return new TwoServers(shop, new PlanShopBuilder(shop));
  }

  /** Of people who work at every hour, so that it does not matter when the test runs. */
  async person(name: string): Promise<string> {
    const { staffId } = await this.shop.addPerson('technician', name);
    for (let day = 1; day <= 7; day += 1) await this.floor.shift(staffId, day, 0, ALL_DAY);
    return staffId;
  }

  async start(count = 2): Promise<void> {
    for (let n = 0; n < count; n += 1) {
      const dataDir = mkdtempSync(join(tmpdir(), 'bayledger-two-'));
      const login = `racer_${randomUUID().slice(0, 8)}`;
      await this.shop.sql(`create role ${login} superuser login`);
      this.dataDirs.push(dataDir);
      this.logins.push(login);
      const { databaseUrl, jwtSecret } = this.shop.server.app.get<Config>(CONFIG);
      const url = (databaseUrl ?? '').replace(/\/\/[^@]*@/, `//${login}@`);
      const server = new ServerProcess(await freePort(), {
        ...{ DATABASE_URL: url, JWT_SECRET: jwtSecret, DATA_DIR: dataDir },
        ...{ DEMO_SHOP: 'no', LOG_LEVEL: 'error' },
      });
      this.processes.push(server);
      await server.start();
    }
  }

  /** The same person at the door of one of the processes. */
  at(process: number, { staffId, token }: Person): Person {
    return personWith(this.processes[process]?.url ?? '', staffId, token);
  }

  now(): void {
    this.shop.clock.set(new Date());
  }

  async stop(): Promise<void> {
    await Promise.all(this.processes.map((server) => server.end('SIGTERM')));
    for (const login of this.logins)
      await this.shop.sql(`drop owned by ${login}`).then(() => this.shop.sql(`drop role ${login}`));
    await this.shop.stop();
    for (const dataDir of this.dataDirs) rmSync(dataDir, { recursive: true, force: true });
  }
}
