import type { Tx } from '../../../platform/database/tx.js';
import type { Period } from '../data/period.js';

export interface PersonTime {
  readonly technicianId: string;
  readonly displayName: string;
  readonly attendedSeconds: number;
  readonly jobSeconds: number;
  readonly indirectSeconds: number;
}

/** Only what lies inside the period counts; an entry that still runs counts to now. */
const INSIDE = `greatest(0, floor(extract(epoch from
  least(coalesce(e.ended_at, $2::timestamptz), $4::timestamptz) - greatest(e.started_at, $3::timestamptz)) + 0.5))::int`;
const TOUCHES = `e.shop_id = $1 and e.superseded_at is null and e.started_at < $4
  and coalesce(e.ended_at, $2::timestamptz) > $3`;

/** How each person spent a period: in the building, on work orders, on indirect time. */
export function timeInPeriod(tx: Tx, { start, end }: Period): Promise<PersonTime[]> {
  return tx.rows<PersonTime>(
    `select s.id as "technicianId", s.display_name as "displayName", sum(x.attended)::int as "attendedSeconds",
            sum(x.job)::int as "jobSeconds", sum(x.indirect)::int as "indirectSeconds"
       from (select e.technician_id, ${INSIDE} as attended, 0 as job, 0 as indirect from attendance_entries e where ${TOUCHES}
             union all
             select e.technician_id, 0, case when e.kind = 'work' then ${INSIDE} else 0 end,
                    case when e.kind = 'indirect' then ${INSIDE} else 0 end
               from clock_entries e where ${TOUCHES}) x
       join staff s on s.shop_id = $1 and s.id = x.technician_id
      group by s.id, s.display_name`,
    [tx.shopId, tx.now, start, end],
  );
}
