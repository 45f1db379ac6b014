import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

const STAKES = "'none', 'comfort', 'dearer-later', 'stranded', 'harm'";

/** What waiting puts at stake, what lines require and exclude, and how the shop weighs them: for choosing within a budget. */
export class Choices1764000000011 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    for (const table of ['findings', 'lines']) {
      await q.query(`alter table ${table} add column stake text`);
      await q.query(`alter table ${table} add constraint ${table}_stake check (stake in (${STAKES}))`);
    }
    await q.query('alter table shops add column benefit_weights jsonb');
    // Both ends carry the revision, so that a line can only be related to a line of its own revision.
    await q.query('alter table lines add constraint lines_in_revision unique (shop_id, id, revision_id)');
    await q.query(`create table line_relations (
      shop_id uuid not null,
      line_id uuid not null,
      other_line_id uuid not null,
      revision_id uuid not null,
      kind text not null,
      constraint line_relations_pkey primary key (shop_id, line_id, other_line_id),
      constraint line_relations_line foreign key (shop_id, line_id, revision_id) references lines (shop_id, id, revision_id),
      constraint line_relations_other foreign key (shop_id, other_line_id, revision_id) references lines (shop_id, id, revision_id),
      constraint line_relations_kind check (kind in ('requires', 'excludes')),
      constraint line_relations_not_itself check (line_id <> other_line_id)
    )`);
    await q.query('create index line_relations_of_other on line_relations (shop_id, other_line_id)');
    await q.query(`create trigger line_relations_sent_stays before insert or update or delete on line_relations
      for each row execute function sent_revision_stays()`);
    await underTenancy(q, { documents: ['line_relations'] });
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
