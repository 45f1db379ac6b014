import pg from 'pg';
import { DataSource } from 'typeorm';
import { ok } from '#libs/kernel';
import { entities } from '#server/entities';
import { search } from '#server/modules/vehicles/queries/search.query';
import { Clock } from '#server/platform/clock';
import { systemContext } from '#server/platform/context';
import { typeormOptions } from '#server/platform/database/open-database';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { freshDatabase, type TestDatabase } from '../support/database.js';

const A = '0190d3a0-0000-7000-8000-00000000000a';
const B = '0190d3a0-0000-7000-8000-00000000000b';
const CUSTOMERS = 50_000;
/** Invented syllables: names, makes and models that sound like ones and are none. */
const SYLLABLES =
  'ta ren mo vi kel dar so lin bra wen or sa fi tu ja nor be quel mir tol har esk du gan pel ist ru vax ome zin'.split(
    ' ',
  );

/** Numbers from 0 to 1, the same ones every time (a linear congruential generator, constants of Numerical Recipes). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Row-level security keeps an ordinary query from using a trigram index; the search must use it all the same. */
describe('the search among fifty thousand customers and as many vehicles', () => {
  let database: TestDatabase;
  let owner: pg.Client;
  let source: DataSource;
  let uow: UnitOfWork;

  beforeAll(async () => {
    database = await freshDatabase();
    owner = new pg.Client(database.conn);
    await owner.connect();
    await fill();
    source = await new DataSource({ ...typeormOptions(database.conn), entities, poolSize: 1 }).initialize();
    uow = new UnitOfWork(source, new Clock());
  }, 120_000);
  afterAll(async () => {
    await source.destroy();
    await owner.end();
    await database.drop();
  });

  /** A second shop, so that finding its rows would show. */
  async function fill(): Promise<void> {
    // Built in one go the indexes take a fraction of the time; their definitions stay those of the migrations.
    const indexes = await owner.query<{ indexname: string; indexdef: string }>(
      `select indexname, indexdef from pg_indexes where indexname in ('customers_search', 'vehicles_search')`,
    );
    for (const { indexname } of indexes.rows) await owner.query(`drop index ${indexname}`);
    const chance = numbers(42);
    const word = (parts: number): string =>
      Array.from({ length: parts }, () => SYLLABLES[Math.floor(chance() * SYLLABLES.length)]).join('');
    for (const [shop, count] of [
      [A, CUSTOMERS],
      [B, CUSTOMERS / 10],
    ] as const) {
      await owner.query(
        `insert into shops (shop_id, slug, name, time_zone, currency, day_starts_minute, day_ends_minute, tax_rounding,
             supplies_rate_ppm, supplies_floor_cents, link_valid_hours, is_demo, version, created_at)
         values ($1, $2, 'Yard', 'UTC', 'USD', 0, 1440, 'line', 0, 0, 24, false, 1, now())`,
        [shop, shop.slice(-1)],
      );
      const rows = Array.from({ length: count }, (_, i) => ({
        name: `${word(2 + (i % 2))} ${word(3)}`,
        phone: `1202${String(Math.floor(chance() * 10_000_000)).padStart(7, '0')}`,
        plate: `${word(1)}${Math.floor(chance() * 100_000)}`,
        model: `${word(2)} ${1970 + Math.floor(chance() * 55)}`,
      }));
      const column = (key: 'name' | 'phone' | 'plate' | 'model'): string[] => rows.map((row) => row[key]);
      await owner.query(
        `with told as (select gen_random_uuid() as id, * from unnest($2::text[], $3::text[], $4::text[], $5::text[])
                         as u (name, phone, plate, model)),
              owners as (insert into customers (shop_id, id, display_name, search_text, version, created_at)
                         select $1, id, name, ' ' || name || ' ' || phone || ' ', 1, now() from told)
         insert into vehicles (shop_id, id, customer_id, plate, make, model, drivetrain, search_text, version, created_at)
         select $1, gen_random_uuid(), id, plate, 'Merelin', model, 'combustion',
                ' ' || plate || ' merelin ' || model || ' ' || name || ' ', 1, now() from told`,
        [shop, column('name'), column('phone'), column('plate'), column('model')],
      );
    }
    for (const { indexdef } of indexes.rows) await owner.query(indexdef);
    await owner.query('vacuum analyze customers, vehicles');
  }

  const found = (q: string) =>
    uow.read(systemContext(A, 'test'), async (tx) => {
      const result = await search(tx, q);
      if (!result.ok) throw new Error(result.fault.detail);
      return ok(result.value);
    });

  async function scans(): Promise<Record<string, number>> {
    await owner.query('select pg_stat_force_next_flush()');
    await owner.query('select pg_stat_clear_snapshot()');
    const { rows } = await owner.query<{ name: string; n: number }>(
      `select indexrelname as name, idx_scan::int as n from pg_stat_user_indexes where indexrelname like '%_search'
       union all select relname, seq_scan::int from pg_stat_user_tables where relname in ('customers', 'vehicles')`,
    );
    return Object.fromEntries(rows.map((r) => [r.name, r.n]));
  }

  /** The plan of the statement inside the function, as it is really made: told by the server as a notice. */
  async function plansOf(call: string): Promise<string> {
    const notices: string[] = [];
    const listen = (notice: { message?: string | undefined }): void =>
      void notices.push(notice.message ?? '');
    owner.on('notice', listen);
    await owner.query(`load 'auto_explain'`);
    await owner.query('begin');
    await owner.query(
      `set local auto_explain.log_min_duration = 0; set local auto_explain.log_nested_statements = on; set local client_min_messages = log`,
    );
    await owner.query(
      `select set_config('role', 'bayledger_app', true), set_config('app.shop_id', $1, true)`,
      [A],
    );
    await owner.query(call);
    await owner.query('rollback');
    owner.off('notice', listen);
    return notices.filter((n) => n.includes('search_text')).join('\n');
  }

  it('uses the trigram index for a word, for two letters, for a number with gaps and for a mistyped name', async () => {
    for (const table of ['customers', 'vehicles']) {
      for (const [words, joined, alike] of [
        [`'taren'`, 'null', 'false'],
        [`'qu'`, 'null', 'false'],
        [`'555', '0123'`, `'5550123'`, 'false'],
        [`'tarnemo'`, 'null', 'true'],
      ]) {
        const plan = await plansOf(
          `select count(*) from find_${table}(array[${words ?? ''}], ${joined ?? ''}, ${alike ?? ''}, null, null, null, 21)`,
        );
        expect(plan).toContain(`Bitmap Index Scan on ${table}_search`);
        expect(plan).toMatch(/Index Cond: \(\(shop_id = .*search_text/);
        expect(plan).not.toContain('Seq Scan');
      }
    }
  });

  it('would be refused that index by an ordinary query under row-level security: the reason for the function', async () => {
    await owner.query('begin');
    await owner.query(
      `select set_config('role', 'bayledger_app', true), set_config('app.shop_id', $1, true)`,
      [A],
    );
    const { rows } = await owner.query<{ 'QUERY PLAN': string }>(
      `explain (costs off) select id from customers where shop_id = '${A}' and search_text like '%taren%'`,
    );
    await owner.query('rollback');
    const plan = rows.map((r) => r['QUERY PLAN']).join('\n');
    expect(plan).not.toMatch(/Index Cond: .*search_text/);
  });

  it('answers while somebody types', async () => {
    const typed = [
      'ta',
      'tar',
      'taren',
      'tarenmo',
      'kelso mo',
      '555 012',
      '5550',
      'merelin tar',
      'tarnemo',
      'xyzzy',
    ];
    const before = await scans();
    const lines: string[] = [];
    const medians: number[] = [];
    for (const q of typed) {
      await found(q);
      const times: number[] = [];
      let hits = 0;
      for (let i = 0; i < 5; i += 1) {
        const began = performance.now();
        const answer = await found(q);
        times.push(performance.now() - began);
        hits = answer.customers.length + answer.vehicles.length;
      }
      const median = [...times].sort((a, b) => a - b)[2] ?? 0;
      medians.push(median);
      lines.push(`  ${q.padEnd(16)} ${median.toFixed(1).padStart(7)} ms  ${String(hits).padStart(3)} found`);
    }
    console.log(`search, median of 5:\n${lines.join('\n')}`);
    await source.destroy(); // its statistics are told when the connection ends
    const after = await scans();
    expect(after['customers_search']).toBeGreaterThanOrEqual(
      (before['customers_search'] ?? 0) + typed.length * 6,
    );
    expect(after['vehicles_search']).toBeGreaterThanOrEqual(
      (before['vehicles_search'] ?? 0) + typed.length * 6,
    );
    expect([after['customers'], after['vehicles']]).toEqual([before['customers'], before['vehicles']]);
    // A person notices a tenth of a second (from memory, no source); the rest is for a busy machine.
    expect(Math.max(...medians)).toBeLessThan(1000);
    source = await new DataSource({ ...typeormOptions(database.conn), entities, poolSize: 1 }).initialize();
    uow = new UnitOfWork(source, new Clock());
  }, 120_000);

  it('gives the rows of the shop that asks, the same ones that reading everything would give', async () => {
    for (const word of ['taren', 'kelso', '5550']) {
      const { rows } = await owner.query<{ id: string }>(
        `select id from customers where shop_id = $1 and search_text like '%' || $2 || '%'`,
        [A, word],
      );
      const all = await uow.read(systemContext(A, 'test'), (tx) =>
        tx
          .rows<{ id: string }>('select id from find_customers($1, null, false, null, null, null, 100000)', [
            [word],
          ])
          .then(ok),
      );
      expect(rows.length).toBeGreaterThan(0);
      expect(new Set(all.map((r) => r.id))).toEqual(new Set(rows.map((r) => r.id)));
    }
  });
});
