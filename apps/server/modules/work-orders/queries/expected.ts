/**
 * SQL for when an item is expected: what was told last counts, also that nobody knows any more; before anything was told,
 * what the sent line says. Everybody who asks joins this, under the name `expected` with the columns `at`, `told_at`,
 * `told_by` and `note`.
 * @param item the alias of `line_items`
 */
export const expectedOf = (item: string): string => `left join lateral (
  select e.expected_at, e.told_at, e.told_by, e.note from part_expectations e
   where e.shop_id = ${item}.shop_id and e.line_item_id = ${item}.id order by e.sequence desc limit 1) told on true
  cross join lateral (select case when told.told_at is null then ${item}.expected_at else told.expected_at end as at,
    told.told_at, told.told_by, told.note) expected`;
