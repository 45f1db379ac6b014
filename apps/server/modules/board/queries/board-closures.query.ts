import type { DateTime } from 'luxon';
import type { Tx } from '../../../platform/database/tx.js';
import { outOfService } from '../../floor/index.js';
import type { BoardClosureResponse } from '../dto/board.response.js';

interface Row {
  readonly closureId: string;
  readonly bayId: string;
  readonly startsAt: Date;
  readonly endsAt: Date | null;
  readonly reason: string;
}

/** Closures that begin later than now and reach into a day of the shop. */
export async function boardClosures(tx: Tx, day: DateTime): Promise<BoardClosureResponse[]> {
  const out = outOfService('c');
  const rows = await tx.rows<Row>(
    `select c.id as "closureId", c.bay_id as "bayId", c.starts_at as "startsAt", upper(${out}) as "endsAt", c.reason
       from bay_closures c join bays b on b.shop_id = $1 and b.id = c.bay_id and b.is_active
      where c.shop_id = $1 and c.starts_at > $2 and ${out} && tstzrange($3, $4)
      order by c.starts_at, c.id`,
    [tx.shopId, tx.now, day.toJSDate(), day.plus({ days: 1 }).startOf('day').toJSDate()],
  );
  return rows.map(({ startsAt, endsAt, reason, ...row }) => ({
    ...row,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt?.toISOString() ?? null,
    words: `Out of service: ${reason}`,
  }));
}
