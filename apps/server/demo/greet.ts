import { ok } from '#libs/kernel';
import { DEMO_ACCOUNTS, DEMO_SHOP_ID } from '../modules/about/index.js';
import type { Config } from '../platform/config.js';
import { systemContext } from '../platform/context.js';
import { UnitOfWork } from '../platform/database/unit-of-work.js';
import type { RunningServer } from '../start-server.js';
import { DEMO_MATES, DEMO_PEOPLE } from './demo-floor.js';

/** What a person sees when the server is up: where it is, and with a demonstration shop how to get in. */
export async function greet(server: RunningServer, config: Config, ms: number): Promise<void> {
  const lines = [`Bayledger is at ${server.url} (up after ${(ms / 1000).toFixed(1)} s)`];
  if (server.migrated.length > 0)
    lines.push(`The database was brought up to date: ${server.migrated.length} migrations.`);
  if (!config.production && (await demoShopExists(server))) {
    lines.push('', 'Demonstration shop (all invented). Sign in at /sign-in with:');
    for (const { name, role, email, password } of DEMO_ACCOUNTS) {
      const pin = DEMO_PEOPLE.find((p) => p.email === email)?.pin;
      lines.push(
        `  ${role.padEnd(14)} ${email.padEnd(28)} ${password}${pin ? `   PIN ${pin}` : ''}   (${name})`,
      );
    }
    for (const { name, pin } of DEMO_MATES)
      lines.push(`  technician     at an enrolled tablet only              PIN ${pin ?? ''}   (${name})`);
    lines.push('', 'The API: /api/docs. One repair from end to end: npm run tour.');
  }
  process.stdout.write(`${lines.join('\n')}\n`);
}

async function demoShopExists(server: RunningServer): Promise<boolean> {
  const uow = server.app.get(UnitOfWork);
  return uow.read(systemContext(DEMO_SHOP_ID, 'greeting'), async (tx) =>
    ok((await tx.one('select 1 from shops where shop_id = $1 and is_demo', [tx.shopId])) !== undefined),
  );
}
