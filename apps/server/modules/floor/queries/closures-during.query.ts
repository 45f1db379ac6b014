import type { Tx } from '../../../platform/database/tx.js';
import { outOfService } from '../data/out-of-service.js';
import type { CalendarPeriod } from './floor-calendar.query.js';

export interface ClosureDuring {
  /** Null for as long as nobody knows. */
  readonly endsAt: Date | null;
  readonly startsAt: Date;
  readonly reason: string;
}

export interface ToolClosureDuring extends ClosureDuring {
  readonly toolId: string;
  readonly unit: number;
}

const DURING = `${outOfService('c')} && tstzrange($3, $4)`;

/** When and why the bay is out of service in the period, the first first. */
export async function bayClosuresDuring(
  tx: Tx,
  bayId: string,
  { from, to }: CalendarPeriod,
): Promise<ClosureDuring[]> {
  return tx.rows(
    `select c.starts_at as "startsAt", least(c.ends_at, c.ended_at) as "endsAt", c.reason
       from bay_closures c where c.shop_id = $1 and c.bay_id = $2 and ${DURING} order by c.starts_at`,
    [tx.shopId, bayId, from, to],
  );
}

/** The same for each unit of these tools. */
export async function toolClosuresDuring(
  tx: Tx,
  toolIds: readonly string[],
  { from, to }: CalendarPeriod,
): Promise<ToolClosureDuring[]> {
  return tx.rows(
    `select c.tool_id as "toolId", c.unit, c.starts_at as "startsAt", least(c.ends_at, c.ended_at) as "endsAt", c.reason
       from tool_closures c where c.shop_id = $1 and c.tool_id = any ($2) and ${DURING} order by c.starts_at`,
    [tx.shopId, toolIds, from, to],
  );
}
