import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { problem } from '../../../platform/http/problem-error.js';
import { lookAtWorkOrder } from '../data/in-hand.js';
import { standingOf } from '../data/standing.mapping.js';
import { workOrderResponse } from '../data/work-order.mapping.js';
import type { WorkOrdersQuery } from '../dto/work-order.request.js';
import type { WorkOrderResponse } from '../dto/work-order.response.js';
import { floorNow } from './floor-now.query.js';
import { STATE_SQL, workOrderFacts } from './work-order-facts.query.js';

/** The newest first, all or those of one state. */
export async function workOrders(tx: Tx, query: WorkOrdersQuery): Promise<Result<Page<WorkOrderResponse>>> {
  const limit = limitOf(query);
  const below = numberBelow(query.cursor);
  const rows = await workOrderFacts(
    tx,
    `($3::text is null or ${STATE_SQL} = $3) and ($4::integer is null or w.number < $4)`,
    [query.state ?? null, below],
    'desc',
    limit + 1,
  );
  const floor = await floorNow(tx);
  return ok(
    pageOf(
      rows,
      limit,
      (row) => workOrderResponse({ row, standing: standingOf(row, floor) }),
      ({ number }) => [number],
    ),
  );
}

export async function oneWorkOrder(tx: Tx, workOrderId: string): Promise<Result<WorkOrderResponse>> {
  const inHand = await lookAtWorkOrder(tx, workOrderId);
  return inHand.ok ? ok(workOrderResponse(inHand.value)) : inHand;
}

const LARGEST = 2_147_483_647;

/** The number of the last work order seen; null on the first page. */
function numberBelow(cursor: string | undefined): number | null {
  const below = decodeCursor(cursor, 1)?.[0];
  if (below === undefined) return null;
  if (typeof below === 'number' && Number.isInteger(below) && Math.abs(below) <= LARGEST) return below;
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}
