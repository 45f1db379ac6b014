import pg from 'pg';
import { DataSource } from 'typeorm';
import { fail, ok } from '#libs/kernel';
import { entities } from '#server/entities';
import { Clock } from '#server/platform/clock';
import { systemContext } from '#server/platform/context';
import { typeormOptions } from '#server/platform/database/open-database';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { freshDatabase, type TestDatabase } from '../support/database.js';
import { insertAnyRow, tenantTables, type TenantTable } from '../support/any-row.js';

const A = '0190d3a0-0000-7000-8000-00000000000a';
const B = '0190d3a0-0000-7000-8000-00000000000b';
const REFUSED = /row-level security|permission denied/;

/** Every table that the catalogue says carries a shop: a new one is covered the moment it is made. */
describe('shops that share a database', () => {
  let database: TestDatabase;
  let owner: pg.Client;
  let tables: TenantTable[];

  beforeAll(async () => {
    database = await freshDatabase();
    owner = new pg.Client(database.conn);
    await owner.connect();
    tables = await tenantTables(owner);
    // This copy is for looking at policies only, so rows need not make sense: nothing but the policies stays in force.
    const constraints = await owner.query<{ tab: string; name: string }>(
      `select conrelid::regclass::text as tab, conname as name from pg_constraint
        where connamespace = 'public'::regnamespace and contype in ('c', 'f', 'x')`,
    );
    for (const { tab, name } of constraints.rows)
      await owner.query(`alter table ${tab} drop constraint "${name}" cascade`);
    for (const table of tables) for (const shop of [A, B]) await insertAnyRow(owner, table, shop);
  });
  afterAll(async () => {
    await owner.end();
    await database.drop();
  });

  /** What the server's role can do in a transaction of this shop (null: of none). Undone afterwards. */
  async function as(shop: string | null, sql: string, values: unknown[] = []): Promise<pg.QueryResult> {
    await owner.query('begin');
    try {
      await owner.query(
        `select set_config('role', 'bayledger_app', true), set_config('app.shop_id', $1, true)`,
        [shop ?? ''],
      );
      return await owner.query(sql, values);
    } finally {
      await owner.query('rollback');
    }
  }
  /** The number of rows that a statement touched, or how it was refused. */
  async function touched(shop: string | null, sql: string, values: unknown[] = []): Promise<number | string> {
    try {
      return (await as(shop, sql, values)).rowCount ?? 0;
    } catch (error) {
      const { message } = error as Error;
      return REFUSED.test(message) ? 'refused' : message;
    }
  }

  it('have row-level security on every table, forced, with a policy, and a key that starts with the shop', async () => {
    expect(tables.length).toBeGreaterThan(40);
    const without = await owner.query<{ relname: string }>(
      `select c.relname from pg_class c where c.relkind in ('r', 'p') and c.relnamespace = 'public'::regnamespace
          and c.relname <> 'migrations'
          and not exists (select 1 from pg_attribute a where a.attrelid = c.oid and a.attname = 'shop_id' and a.attnotnull)`,
    );
    expect(without.rows).toEqual([]);
    const bad = await owner.query(
      `select c.relname, c.relrowsecurity, c.relforcerowsecurity from pg_class c
        where c.relnamespace = 'public'::regnamespace and c.relname = any ($1)
          and (not c.relrowsecurity
               or not (c.relforcerowsecurity or c.relname = 'shops')
               or not exists (select 1 from pg_policies p where p.tablename = c.relname and p.cmd = 'ALL'
                                 and p.qual = '(shop_id = current_shop())' and p.with_check = '(shop_id = current_shop())')
               or (select a.attname from pg_index i join pg_attribute a on a.attrelid = c.oid and a.attnum = i.indkey[0]
                    where i.indrelid = c.oid and i.indisprimary) is distinct from 'shop_id')`,
      [tables.map((t) => t.name)],
    );
    expect(bad.rows).toEqual([]);
  });

  it('have tables in no other schema, but for the queue of jobs, where their role may do nothing', async () => {
    const { rows } = await owner.query<{ name: string; may: boolean }>(
      `select nspname as name, has_schema_privilege('bayledger_app', oid, 'usage') as may from pg_namespace n
        where nspname !~ '^pg_' and nspname <> 'information_schema' and exists (
          select from pg_class c where c.relnamespace = n.oid and c.relkind in ('r', 'p', 'f', 'm', 'v')) order by 1`,
    );
    expect(rows).toEqual([
      { name: 'graphile_worker', may: false },
      { name: 'public', may: true },
    ]);
  });

  it('have no policy beyond the shop, except for signing in and for the search', async () => {
    const { rows } = await owner.query<{ policyname: string }>(
      `select policyname from pg_policies where schemaname = 'public' and policyname not like '%_of_the_shop' order by 1`,
    );
    expect(rows.map((r) => r.policyname)).toEqual([
      'customers_for_search',
      'shops_of_the_address_signing_in',
      'staff_of_the_address_signing_in',
      'vehicles_for_search',
    ]);
  });

  it('are served by a role that passes by nothing: no superuser, no owner, member of nothing', async () => {
    for (const role of ['bayledger_app', 'bayledger_search', 'bayledger_queue']) {
      const { rows } = await owner.query(
        `select rolsuper, rolbypassrls, rolcreaterole, rolcanlogin,
                (select count(*)::int from pg_auth_members m where m.member = r.oid) as memberships,
                (select count(*)::int from pg_class c where c.relowner = r.oid) as tables
           from pg_roles r where rolname = $1`,
        [role],
      );
      expect(rows).toEqual([
        {
          rolsuper: false,
          rolbypassrls: false,
          rolcreaterole: false,
          rolcanlogin: false,
          memberships: 0,
          tables: 0,
        },
      ]);
    }
    expect(await touched(A, 'select * from migrations')).toBe('refused');
    const member = await owner.query(
      `select pg_has_role('bayledger_app', 'bayledger_search', 'member') as may`,
    );
    expect(member.rows).toEqual([{ may: false }]);
  });

  it('can read every row of their own and none of the other, on every table', async () => {
    const seen: Record<string, unknown> = {};
    for (const { name } of tables) {
      const counts = await as(
        A,
        `select count(*) filter (where shop_id = $1)::int as mine, count(*) filter (where shop_id <> $1)::int as theirs from ${name}`,
        [A],
      );
      seen[name] = counts.rows[0];
    }
    expect(seen).toEqual(Object.fromEntries(tables.map(({ name }) => [name, { mine: 1, theirs: 0 }])));
  });

  it('cannot change, delete, add or take over a row of the other, on any table', async () => {
    const wrong: unknown[] = [];
    for (const table of tables) {
      const { name, columns } = table;
      const list = columns.join(', ');
      const outcomes = {
        update: await touched(A, `update ${name} set shop_id = shop_id where shop_id = $1`, [B]),
        delete: await touched(A, `delete from ${name} where shop_id = $1`, [B]),
        insert: await touched(
          A,
          `insert into ${name} (${list}) select ${list} from jsonb_populate_record(null::${name}, $1)`,
          [JSON.stringify(await aRowOf(table, B))],
        ),
        giveAway: await touched(A, `update ${name} set shop_id = $1`, [B]),
      };
      const isSafe =
        [0, 'refused'].includes(outcomes.update) &&
        [0, 'refused'].includes(outcomes.delete) &&
        outcomes.insert === 'refused' &&
        outcomes.giveAway === 'refused';
      if (!isSafe) wrong.push({ name, ...outcomes });
    }
    expect(wrong).toEqual([]);
  });

  it('would notice: with a policy that lets everything through, the same questions fail', async () => {
    await owner.query('create policy bays_open on bays using (true) with check (true)');
    try {
      expect(await touched(A, 'select 1 from bays where shop_id = $1', [B])).toBe(1);
      expect(await touched(A, 'update bays set shop_id = shop_id where shop_id = $1', [B])).toBe(1);
      expect(await touched(A, 'delete from bays where shop_id = $1', [B])).toBe(1);
    } finally {
      await owner.query('drop policy bays_open on bays');
    }
  });

  it('show nothing at all to a transaction that has not said which shop it is for', async () => {
    for (const { name } of tables)
      expect([name, await touched(null, `select 1 from ${name}`)]).toEqual([name, 0]);
    for (const table of tables) {
      const { name, columns } = table;
      const list = columns.join(', ');
      const added = await touched(
        null,
        `insert into ${name} (${list}) select ${list} from jsonb_populate_record(null::${name}, $1)`,
        [JSON.stringify(await aRowOf(table, A))],
      );
      expect([name, added]).toEqual([name, 'refused']);
    }
  });

  it('keep the search apart: it finds ids of the shop that asks, and of none without one', async () => {
    for (const table of ['customers', 'vehicles']) {
      await owner.query(`update ${table} set search_text = ' same words '`);
      const ask = `select id from find_${table}(array['same'], null, false, null, null, null, 50)`;
      const mine = await as(A, `select id from ${table} where id in (${ask})`);
      expect([mine.rowCount, await touched(A, ask), await touched(B, ask), await touched(null, ask)]).toEqual(
        [1, 1, 1, 0],
      );
    }
  });

  it('show, before the shop is known, the rows of exactly the address that signs in', async () => {
    await owner.query(
      `update staff set email = case shop_id when $1 then 'a@example.test' else 'b@example.test' end`,
      [A],
    );
    const ask = async (email: string): Promise<unknown[]> => {
      await owner.query('begin');
      try {
        await owner.query(
          `select set_config('role', 'bayledger_app', true), set_config('app.shop_id', '', true), set_config('app.sign_in_email', $1, true)`,
          [email],
        );
        const people = await owner.query('select shop_id, email from staff');
        const shops = await owner.query('select shop_id from shops');
        const rest = await owner.query('select 1 from sessions');
        const changed = await owner.query('update staff set display_name = display_name');
        return [people.rows, shops.rows, rest.rowCount, changed.rowCount];
      } finally {
        await owner.query('rollback');
      }
    };
    expect(await ask('b@example.test')).toEqual([
      [{ shop_id: B, email: 'b@example.test' }],
      [{ shop_id: B }],
      0,
      0,
    ]);
    expect(await ask('')).toEqual([[], [], 0, 0]);
    expect(await ask('%')).toEqual([[], [], 0, 0]);
  });

  describe('behind a proxy that pools transactions', () => {
    let source: DataSource;
    let uow: UnitOfWork;
    beforeAll(async () => {
      // One connection for everybody: what one transaction leaves behind, the next one would find.
      source = await new DataSource({ ...typeormOptions(database.conn), entities, poolSize: 1 }).initialize();
      uow = new UnitOfWork(source, new Clock());
    });
    afterAll(async () => {
      await source.destroy();
    });
    const left = async (): Promise<unknown> =>
      (
        await source.query<unknown[]>(
          `select nullif(current_setting('app.shop_id', true), '') as shop, current_user = session_user as "isLogin",
                  nullif(current_setting('app.sign_in_email', true), '') as email, current_setting('transaction_read_only') as "readOnly"`,
        )
      )[0];
    const clean = { shop: null, isLogin: true, email: null, readOnly: 'off' };
    const shopsSeen = (shop: string): Promise<string[]> =>
      uow.read(systemContext(shop, 'test'), async (tx) =>
        ok((await tx.rows<{ id: string }>('select distinct shop_id as id from bays')).map((r) => r.id)),
      );

    it('two shops take turns on one connection and never see each other', async () => {
      const turns = Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? A : B));
      const seen = await Promise.all(turns.map(shopsSeen));
      expect(seen).toEqual(turns.map((shop) => [shop]));
      expect(await left()).toEqual(clean);
    });

    it('nothing of a transaction stays on the connection: not after a write, a refusal, an error or a sign-in', async () => {
      const ctx = systemContext(A, 'test');
      await uow.run(ctx, (tx) => tx.rows('update bays set name = name').then(ok));
      expect(await left()).toEqual(clean);
      await expect(uow.run(ctx, () => Promise.resolve(fail('not-found', 'no')))).rejects.toThrow('not-found');
      expect(await left()).toEqual(clean);
      await expect(uow.read(ctx, (tx) => tx.rows('select 1/0').then(ok))).rejects.toThrow('division by zero');
      expect(await left()).toEqual(clean);
      await expect(uow.read(ctx, (tx) => tx.rows('update bays set name = name').then(ok))).rejects.toThrow(
        'read-only',
      );
      await uow.bySignInAddress('a@example.test', (em) => em.query('select 1'));
      expect(await left()).toEqual(clean);
      expect(await shopsSeen(B)).toEqual([B]);
    });

    it('a refused use case leaves nothing of what it wrote', async () => {
      const ctx = systemContext(A, 'test');
      await expect(
        uow.run(ctx, async (tx) => {
          await tx.rows(`update bays set name = 'half done'`);
          return fail('not-found', 'changed our mind');
        }),
      ).rejects.toThrow('not-found');
      const { rowCount } = await owner.query(`select 1 from bays where name = 'half done'`);
      expect(rowCount).toBe(0);
    });
  });

  async function aRowOf({ name }: TenantTable, shop: string): Promise<Record<string, unknown>> {
    const { rows } = await owner.query<{ row: Record<string, unknown> }>(
      `select to_jsonb(t) as row from ${name} t where shop_id = $1 limit 1`,
      [shop],
    );
    return { ...rows[0]?.row };
  }
});
