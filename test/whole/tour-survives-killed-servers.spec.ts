import { readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runTour } from '../../apps/tour/run-tour.js';
import { freePort, ServerProcess } from '../support/server-process.js';

describe('the whole main line on a real process', () => {
  let dataDir: string;
  let server: ServerProcess;
  beforeAll(async () => {
    dataDir = await mkdtemp(join(tmpdir(), 'bayledger-whole-'));
    server = new ServerProcess(await freePort(), { DATA_DIR: dataDir, DEMO_CLOCK_RATE: '3600' });
    await server.start();
  }, 90_000);
  afterAll(async () => {
    await server.end('SIGTERM');
    await rm(dataDir, { recursive: true, force: true });
  });

  it('prints its address and the demonstration logins on first start', () => {
    expect(server.said).toContain(server.url);
    expect(server.said).toContain('wenna@kestrelyard.example');
  });

  it('serves its pages with everything they load, as the built program does', async () => {
    for (const address of ['/sign-in', '/board']) {
      const page = await fetch(server.url + address);
      expect([address, page.status, page.headers.get('content-type')]).toEqual([
        address,
        200,
        'text/html; charset=utf-8',
      ]);
      const html = await page.text();
      const loaded = [...html.matchAll(/(?:src|href)="(\/assets\/[^"]+)"/g)].map((m) => m[1] ?? '');
      expect(loaded.length).toBeGreaterThan(1);
      for (const asset of loaded)
        expect([asset, (await fetch(server.url + asset)).status]).toEqual([asset, 200]);
    }
    expect((await fetch(`${server.url}/api/docs`)).status).toBe(200);
  });

  it('loses no acknowledged fact although server and database are killed in the middle of it', async () => {
    let kills = 0;
    let restarted: Promise<void> = Promise.resolve();
    // Some milliseconds later, so that it hits requests of the next step that are under way.
    const killSoon = (act: () => Promise<void>): void => {
      kills += 1;
      restarted = new Promise((resolve) => setTimeout(resolve, 60)).then(act);
    };
    const result = await runTour(server.url, () => undefined, {
      afterStep: async (_step, number) => {
        await restarted;
        if (number === 1 || number === 3)
          killSoon(async () => {
            await server.end('SIGKILL');
            await server.start();
          });
        if (number === 2)
          killSoon(() =>
            Promise.resolve(process.kill(postmasterOf(dataDir), 'SIGKILL')).then(() => undefined),
          );
      },
    });
    await restarted;
    expect(kills).toBe(3);
    expect(result.findings).toBeGreaterThanOrEqual(14);
    expect(result.invoiceableCents).toBe(result.approvedCents);
    expect(result.approvedCents).toBeLessThan(result.sentCents);
    expect(result.workOrders).toBe(13);
    expect(result.clockedHours).toBeGreaterThan(0);
    expect(result.steps.length).toBeGreaterThan(15);
  }, 240_000);
});

function postmasterOf(dataDir: string): number {
  const file = join(dataDir, 'postgres/cluster/postmaster.pid');
  return Number(readFileSync(file, 'utf8').split('\n')[0]);
}
