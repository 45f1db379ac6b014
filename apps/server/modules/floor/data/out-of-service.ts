/**
 * The time in which a row of bay_closures or tool_closures really keeps its subject out of service, as SQL: until it was
 * put back, or else until then expected. One that was called off before it began has none; CASE, because nothing else
 * makes sure that its reversed range is never built.
 */
export const outOfService = (row: string): string =>
  `(case when ${row}.ended_at <= ${row}.starts_at then 'empty'::tstzrange
     else tstzrange(${row}.starts_at, least(${row}.ends_at, ${row}.ended_at)) end)`;
