import type { QueryRunner } from 'typeorm';

/**
 * Search by trigrams under row-level security.
 *
 * Postgres evaluates no operator that might leak a row (LIKE, the trigram operators) before the tenancy policy, and so
 * never uses a trigram index under one: every search would read the whole shop. The search therefore runs inside a
 * function that belongs to a role of its own. That role cannot sign in, may read nothing but the three columns below,
 * and has a policy that lets it read every row, which leaves the index free to be used. The function names the shop
 * itself and gives out ids only; whoever asks reads the rows by those ids under the ordinary policy.
 */
const SEARCH_ROLE = 'bayledger_search';

export async function makeSearchRole(q: QueryRunner): Promise<void> {
  await q.query(`do $$ begin
    create role ${SEARCH_ROLE} nologin nosuperuser nobypassrls nocreatedb nocreaterole;
  exception when duplicate_object or unique_violation then null; end $$`);
  await q.query(`grant usage on schema public to ${SEARCH_ROLE}`);
}

/** `search_text` of the table: a space, words in small letters without accents, each followed by a space. */
export async function searchable(q: QueryRunner, table: string): Promise<void> {
  await q.query(`create index ${table}_search on ${table} using gin (shop_id, search_text gin_trgm_ops)`);
  await q.query(`create policy ${table}_for_search on ${table} for select to ${SEARCH_ROLE} using (true)`);
  await q.query(`grant select (shop_id, id, search_text) on ${table} to ${SEARCH_ROLE}`);
  await q.query(functionText(table));
  await q.query(`revoke all on function find_${table} from public`);
  await q.query(`grant execute on function find_${table} to bayledger_app`);
  await giveToSearchRole(q, `find_${table}`);
}

/** Giving a function away needs both sides' consent; the owner of the database keeps neither right afterwards. */
async function giveToSearchRole(q: QueryRunner, name: string): Promise<void> {
  const [me] = (await q.query(
    'select rolsuper as "isSuperuser" from pg_roles where rolname = current_user',
  )) as { isSuperuser: boolean }[];
  const needsMembership = me?.isSuperuser !== true;
  if (needsMembership) await q.query(`grant ${SEARCH_ROLE} to current_user`);
  await q.query(`grant create on schema public to ${SEARCH_ROLE}`);
  await q.query(`alter function ${name} owner to ${SEARCH_ROLE}`);
  await q.query(`revoke create on schema public from ${SEARCH_ROLE}`);
  if (needsMembership) await q.query(`revoke ${SEARCH_ROLE} from current_user`);
}

/**
 * All `words` (each inside a word of the text; one or two characters: at its beginning), or all of them run together
 * (`joined`: phone numbers and plates typed with gaps). With `alike` a longer word need only be similar to one of the
 * text, for what was mistyped.
 * Best first: whole words before beginnings before insides; then by the text. `after_…` is the last row seen.
 * The statement is put together so that every word is a constant that the index can be asked for.
 */
function functionText(table: string): string {
  return `create function find_${table}(
      words text[], joined text, alike boolean,
      after_score integer, after_sort text, after_id uuid, at_most integer)
    returns table (id uuid, score integer, sort text)
    language plpgsql stable security definer
    set search_path = public, pg_temp
    set pg_trgm.word_similarity_threshold = '0.3'
    as $find$
    declare
      contains constant text := 'search_text like %L';
      resembles constant text := '%L <% search_text';
      placed constant text :=
        '(case when position(%1$L in search_text) > 0 then 4 when position(%2$L in search_text) > 0 then 2 else 0 end'
        ' + case when starts_with(search_text, %2$L) then 1 else 0 end)';
      together constant text :=
        ' + case when position(%1$L in search_text) > 0 then 6 when position(%2$L in search_text) > 0 then 4'
        ' when position(%3$L in search_text) > 0 then 3 else 0 end';
      matches text;
      points text;
    begin
      select string_agg(case when w.loose then replace(resembles, '%L', quote_literal(w.word))
               else format(contains, w.pattern) end, ' and '),
             string_agg(case when w.loose
               then format('round(1000 * word_similarity(%L, search_text))::integer', w.word)
               else format(placed, ' ' || w.word || ' ', ' ' || w.word) end, ' + ')
        into matches, points
        from (select word, alike and length(word) > 4 and word !~ '^[0-9]+$' as loose,
                     case when length(word) < 3 then '% ' else '%' end || word || '%' as pattern
                from unnest(words) word) w;
      if joined is not null and not alike then
        matches := format('(%s) or ' || contains, matches,
          case when length(joined) < 3 then '% ' else '%' end || joined || '%');
        points := points || format(together, ' ' || joined || ' ', ' ' || joined, joined);
      end if;
      return query execute format(
        'select f.id, f.score, f.sort
           from (select t.id, %s as score, left(t.search_text, 60) as sort from ${table} t
                  where t.shop_id = $1 and (%s)) f
          where $2 is null or f.score < $2 or (f.score = $2 and (f.sort, f.id) > ($3, $4))
          order by f.score desc, f.sort, f.id limit $5', points, matches)
        using current_shop(), after_score, after_sort, after_id, at_most;
    end $find$`;
}
