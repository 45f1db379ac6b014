import { DataSource } from 'typeorm';
import { migrations } from '#migrations';
import { entities } from '#server/entities';
import { typeormOptions } from '#server/platform/database/open-database';
import { migrateQueue } from '#server/platform/queue/index';
import { emptyDatabase, freshDatabase, type TestDatabase } from '../support/database.js';

describe('the migrations', () => {
  let database: TestDatabase;
  let source: DataSource;
  afterEach(async () => {
    await source.destroy();
    await database.drop();
  });

  it('run from zero, once, and leave nothing pending', async () => {
    database = await emptyDatabase();
    await migrateQueue(database.conn);
    source = await new DataSource({ ...typeormOptions(database.conn), migrations }).initialize();
    const first = await source.runMigrations({ transaction: 'each' });
    expect(first).toHaveLength(migrations.length);
    expect(await source.runMigrations({ transaction: 'each' })).toEqual([]);
    expect(await source.showMigrations()).toBe(false);
  });

  it('say exactly what the entities say: TypeORM would change nothing', async () => {
    database = await freshDatabase();
    source = await new DataSource({ ...typeormOptions(database.conn), entities }).initialize();
    const drift = await source.driver.createSchemaBuilder().log();
    expect(drift.upQueries.map((q) => q.query)).toEqual([]);
  });

  it('would be told of a drift: an entity with a column more is noticed', async () => {
    database = await freshDatabase();
    source = await new DataSource({ ...typeormOptions(database.conn), entities }).initialize();
    await source.query('alter table bays drop column max_height_mm');
    const drift = await source.driver.createSchemaBuilder().log();
    expect(drift.upQueries.some((q) => q.query.includes('max_height_mm'))).toBe(true);
  });

  it('give money and time whole numbers, and every table of a shop a key that starts with shop_id', async () => {
    database = await freshDatabase();
    source = await new DataSource(typeormOptions(database.conn)).initialize();
    const floats = await source.query<{ table_name: string; column_name: string }[]>(
      `select table_name, column_name from information_schema.columns
        where table_schema = 'public' and (data_type in ('real', 'double precision', 'money')
          or (column_name ~ '(_cents|_hundredths|_ppm|_seconds)' and data_type <> 'integer'))`,
    );
    expect(floats).toEqual([]);
    const keys = await source.query<{ tab: string; first: string }[]>(
      `select c.conrelid::regclass::text as tab, a.attname as first from pg_constraint c
         join pg_attribute a on a.attrelid = c.conrelid and a.attnum = c.conkey[1]
        where c.contype = 'p' and c.connamespace = 'public'::regnamespace`,
    );
    expect(keys.length).toBeGreaterThan(40);
    expect(keys.filter((k) => k.first !== 'shop_id' && k.tab !== 'migrations')).toEqual([]);
  });
});
