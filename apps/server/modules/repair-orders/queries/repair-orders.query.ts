import { ok, type Result } from '#libs/kernel';
import { stageOf, type Stage } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { isInstant } from '../../../platform/http/is-instant.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { problem } from '../../../platform/http/problem-error.js';
import type { RepairOrdersQuery } from '../dto/repair-order.request.js';
import type { RepairOrderSummaryResponse } from '../dto/repair-order.response.js';
import { REPAIRED } from './driving-warnings.query.js';
import { FACTS_COLUMNS, factsOf, type FactsRow } from './facts-sql.js';

interface Row extends FactsRow, Omit<RepairOrderSummaryResponse, 'stage' | DateKey> {
  droppedOffAt: Date;
  promisedAt: Date | null;
  pickedUpAt: Date | null;
}
type DateKey = 'droppedOffAt' | 'promisedAt' | 'pickedUpAt';
type Staged = Row & { readonly stage: Stage };

const CHUNK = 200;

/**
 * Stays, the latest drop-off first. A stage is derived, not stored, so a page of one stage reads on until it is full;
 * except for `picked-up`, that walks over the cars that are in the shop and no others.
 */
export async function repairOrdersPage(
  tx: Tx,
  query: RepairOrdersQuery,
): Promise<Result<{ items: RepairOrderSummaryResponse[]; nextCursor: string | null }>> {
  const limit = limitOf(query);
  const chunk = query.stage === undefined ? limit + 1 : Math.max(CHUNK, limit + 1);
  const found: Staged[] = [];
  let after = positionOf(query.cursor);
  for (;;) {
    const rows = await tx.rows<Row>(SQL, [
      tx.shopId,
      here(query),
      query.vehicleId ?? null,
      after?.[0] ?? null,
      after?.[1] ?? null,
      chunk,
    ]);
    const staged = rows.map((row) => ({ ...row, stage: stageOf(factsOf(row)) }));
    found.push(...staged.filter(({ stage }) => query.stage === undefined || stage === query.stage));
    const last = staged.at(-1);
    if (found.length > limit || rows.length < chunk || !last) break;
    after = keyOf(last);
  }
  return ok(pageOf(found, limit, summary, keyOf));
}

function here({ here: asked, stage }: RepairOrdersQuery): boolean | null {
  if (stage === 'picked-up') return false;
  if (stage !== undefined) return true;
  return asked === undefined ? null : asked === 'yes';
}

const UUID = /^[0-9a-f-]{36}$/;

function positionOf(cursor: string | undefined): [string, string] | undefined {
  const parts = decodeCursor(cursor, 2);
  if (!parts) return undefined;
  const [at, id] = parts;
  if (isInstant(at) && typeof id === 'string' && UUID.test(id)) return [at, id];
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}

function keyOf(row: Row): [string, string] {
  return [row.droppedOffAt.toISOString(), row.id];
}

function summary(row: Staged): RepairOrderSummaryResponse {
  return {
    id: row.id,
    number: row.number,
    stage: row.stage,
    vehicleId: row.vehicleId,
    plate: row.plate,
    make: row.make,
    model: row.model,
    modelYear: row.modelYear,
    customerId: row.customerId,
    customerName: row.customerName,
    concern: row.concern,
    droppedOffAt: row.droppedOffAt.toISOString(),
    promisedAt: row.promisedAt?.toISOString() ?? null,
    pickedUpAt: row.pickedUpAt?.toISOString() ?? null,
    isUnsafe: row.isUnsafe,
  };
}

const SQL = `select r.id, r.number, r.vehicle_id as "vehicleId", v.plate, v.make, v.model, v.model_year as "modelYear",
    r.customer_id as "customerId", c.display_name as "customerName", r.concern, r.dropped_off_at as "droppedOffAt",
    r.promised_at as "promisedAt", r.picked_up_at as "pickedUpAt",
    exists (select 1 from findings f where f.shop_id = r.shop_id and f.repair_order_id = r.id
              and f.withdrawn_at is null and f.may_drive = 'no' and not ${REPAIRED}) as "isUnsafe",
    ${FACTS_COLUMNS}
  from repair_orders r
  join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
  join customers c on c.shop_id = r.shop_id and c.id = r.customer_id
 where r.shop_id = $1 and ($2::boolean is null or (r.picked_up_at is null) = $2)
   and ($3::uuid is null or r.vehicle_id = $3)
   and ($4::timestamptz is null or (r.dropped_off_at, r.id) < ($4::timestamptz, $5::uuid))
 order by r.dropped_off_at desc, r.id desc limit $6`;
