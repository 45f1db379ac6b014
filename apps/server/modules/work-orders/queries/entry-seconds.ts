/**
 * SQL for the whole seconds of a clock or attendance entry, half up, an open one counted to `$2` (the transaction's
 * time). Every sum of clocked time goes through this one expression, entry by entry, so that any grouping of the same
 * entries adds up to the same total.
 */
export const entrySeconds = (entry: string): string =>
  `greatest(0, floor(extract(epoch from coalesce(${entry}.ended_at, $2::timestamptz) - ${entry}.started_at) + 0.5))::int`;
