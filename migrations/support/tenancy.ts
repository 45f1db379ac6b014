import type { QueryRunner } from 'typeorm';

/**
 * Puts tables under the shop's row-level security and gives the server's role what it may do with them.
 * `facts` are only ever added: the role gets no UPDATE or DELETE on them at all.
 * FORCE makes the policy hold for the table's owner too, so only a superuser could pass it by.
 */
export async function underTenancy(
  q: QueryRunner,
  tables: { documents?: readonly string[]; facts?: readonly string[] },
): Promise<void> {
  const grants: [readonly string[], string][] = [
    [tables.documents ?? [], 'select, insert, update, delete'],
    [tables.facts ?? [], 'select, insert'],
  ];
  for (const [names, grant] of grants) {
    for (const table of names) {
      await q.query(`alter table ${table} enable row level security`);
      await q.query(`alter table ${table} force row level security`);
      await q.query(
        `create policy ${table}_of_the_shop on ${table}
           using (shop_id = current_shop()) with check (shop_id = current_shop())`,
      );
      await q.query(`grant ${grant} on ${table} to bayledger_app`);
    }
  }
}

/** A row of these tables never changes and never goes; the trigger also stops the owner of the database. */
export async function neverChanges(q: QueryRunner, tables: readonly string[]): Promise<void> {
  for (const table of tables) {
    await q.query(
      `create trigger ${table}_append_only before update or delete on ${table}
         for each row execute function refuse_change('${table}_append_only')`,
    );
  }
}
