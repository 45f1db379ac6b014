import type pg from 'pg';

export interface TenantTable {
  readonly name: string;
  /** Those that can be written: no generated ones. */
  readonly columns: readonly string[];
  /** A value that the type accepts, as SQL, for every column that must have one. */
  readonly values: Readonly<Record<string, string>>;
}

interface Column {
  table: string;
  column: string;
  type: string;
  needed: boolean;
}

const OF_TYPE: Readonly<Record<string, string>> = {
  uuid: 'gen_random_uuid()',
  text: `'x' || substr(md5(random()::text), 1, 8)`,
  'text[]': `array['x']`,
  integer: '1',
  bigint: '1',
  boolean: 'false',
  jsonb: `'{}'`,
  bytea: `'\\x00'`,
  date: `'2026-01-01'`,
  'time without time zone': `'08:00'`,
  'timestamp with time zone': `'2026-01-01T08:00:00Z'`,
  tstzrange: `'[2026-01-01T08:00:00Z,2026-01-01T09:00:00Z)'`,
};

/** The tables that carry a shop, as the catalogue has them. */
export async function tenantTables(client: pg.Client): Promise<TenantTable[]> {
  const { rows } = await client.query<Column>(
    `select c.relname as table, quote_ident(a.attname) as column, format_type(a.atttypid, a.atttypmod) as type,
            a.attnotnull and not a.atthasdef and a.attidentity = '' as needed
       from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
      where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and a.attgenerated = ''
        and exists (select 1 from pg_attribute s where s.attrelid = c.oid and s.attname = 'shop_id')
      order by c.relname, a.attnum`,
  );
  const names = [...new Set(rows.map((r) => r.table))];
  return names.map((name) => {
    const columns = rows.filter((r) => r.table === name);
    const needed = columns.filter((c) => c.needed).map((c) => [c.column, valueOf(c)] as const);
    return { name, columns: columns.map((c) => c.column), values: Object.fromEntries(needed) };
  });
}

function valueOf({ table, column, type }: Column): string {
  const value = OF_TYPE[type];
  if (value === undefined)
    throw new Error(`say in any-row.ts what a ${type} looks like (${table}.${column})`);
  return value;
}

/** A row of this shop that has the right types and means nothing. The checks of the table must be gone. */
export async function insertAnyRow(client: pg.Client, table: TenantTable, shopId: string): Promise<void> {
  const values = { ...table.values, shop_id: `'${shopId}'` };
  await client.query(
    `insert into ${table.name} (${Object.keys(values).join(', ')}) values (${Object.values(values).join(', ')})`,
  );
}
