import type { MigrationInterface, QueryRunner } from 'typeorm';

const QUEUE_ROLE = 'bayledger_queue';
const TABLES = ['_private_jobs', '_private_job_queues', '_private_tasks'];

/**
 * Who may do what with the job queue, whose tables are the library's own and exist already (platform/queue/migrate-queue.ts).
 * They know no shops, so the server's role gets nothing there at all: a transaction adds jobs by one function, which
 * puts its shop into payload, key and queue. Running jobs is for a role of its own, which may do nothing else.
 */
export class Jobs1764000000016 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`do $$ begin
      create role ${QUEUE_ROLE} nologin nosuperuser nobypassrls nocreatedb nocreaterole;
    exception when duplicate_object or unique_violation then null; end $$`);
    await q.query(`grant ${QUEUE_ROLE} to current_user`);
    await q.query(`grant usage on schema graphile_worker, public to ${QUEUE_ROLE}`);
    await q.query(`grant select on graphile_worker.migrations to ${QUEUE_ROLE}`);
    for (const table of TABLES) {
      await q.query(`grant select, insert, update, delete on graphile_worker.${table} to ${QUEUE_ROLE}`);
      await q.query(
        `create policy ${QUEUE_ROLE} on graphile_worker.${table} to ${QUEUE_ROLE} using (true) with check (true)`,
      );
    }
    await this.enqueue(q);
  }

  /**
   * `add_job` finds no pending job and adds none when a runner takes the one with this key between its two looks; the
   * second call then sees a run that has begun. Jobs are added in one order, so that two transactions do not wait for
   * each other.
   */
  private async enqueue(q: QueryRunner): Promise<void> {
    await q.query(`create function enqueue_jobs(jobs jsonb) returns void
      language plpgsql volatile security definer set search_path = pg_catalog, pg_temp
      as $enqueue$
      declare
        shop constant text := public.current_shop()::text;
        wanted record;
        added bigint;
      begin
        if shop is null then
          raise exception 'a job is always for a shop' using errcode = '42501';
        end if;
        for wanted in
          select * from jsonb_to_recordset(jobs) as j(task text, payload jsonb, key text, queue text,
            "runAt" timestamptz, mode text, "maxAttempts" integer) order by queue, task, key
        loop
          for attempt in 1 .. 5 loop
            select id into added from graphile_worker.add_job(
              identifier => wanted.task,
              payload => (wanted.payload || jsonb_build_object('shopId', shop))::json,
              queue_name => wanted.queue || ' ' || shop,
              run_at => wanted."runAt",
              max_attempts => coalesce(wanted."maxAttempts", 10),
              job_key => wanted.task || ' ' || shop || ' ' || wanted.key,
              job_key_mode => coalesce(wanted.mode, 'replace'));
            exit when added is not null;
          end loop;
          if added is null then
            raise exception 'the job % is taken again and again', wanted.task using errcode = '40001';
          end if;
        end loop;
      end $enqueue$`);
    await q.query('revoke all on function enqueue_jobs from public');
    await q.query('grant execute on function enqueue_jobs to bayledger_app');
    // Giving a function away needs the new owner's right to make one.
    await q.query(`grant create on schema public to ${QUEUE_ROLE}`);
    await q.query(`alter function enqueue_jobs owner to ${QUEUE_ROLE}`);
    await q.query(`revoke create on schema public from ${QUEUE_ROLE}`);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
