import { DateTime } from 'luxon';
import { fail, ok, type Failed, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { ClaimFacts } from '../queries/work-order-facts.query.js';
import { letIntoPlan } from './place.js';

/** Who holds the work order; read without a lock, so that whoever comes too late is told at once. */
export async function holderOf(tx: Tx, workOrderId: string): Promise<ClaimFacts | undefined> {
  const row = await tx.one<Omit<ClaimFacts, 'claimedAt'> & { claimedAt: Date }>(
    `select c.id, c.technician_id as "technicianId", s.display_name as "displayName", c.claimed_at as "claimedAt"
       from claims c join staff s on s.shop_id = c.shop_id and s.id = c.technician_id
      where c.shop_id = $1 and c.work_order_id = $2 and c.released_at is null`,
    [tx.shopId, workOrderId],
  );
  return row && { ...row, claimedAt: row.claimedAt.toISOString() };
}

export function heldBy(holder: ClaimFacts, timeZone: string): Failed {
  const since = DateTime.fromISO(holder.claimedAt, { zone: timeZone }).toFormat('yyyy-MM-dd HH:mm');
  return fail(
    'work-order-claimed',
    `${holder.displayName} has held this work order since ${since}. Choose another one or ask ${holder.displayName}.`,
    {
      facts: {
        holder: { id: holder.technicianId, displayName: holder.displayName },
        since: new Date(holder.claimedAt).toISOString(),
      },
    },
  );
}

/**
 * Makes this person the holder. The unique index decides; `do nothing` instead of an error keeps the transaction alive,
 * so that the one who was faster can be named.
 */
export async function takeClaim(tx: Tx, workOrderId: string, timeZone: string): Promise<Result<ClaimFacts>> {
  const made = await tx.one<{ id: string }>(
    `insert into claims (shop_id, id, work_order_id, technician_id, claimed_at) values ($1, $2, $3, $4, $5)
     on conflict (shop_id, work_order_id) where (released_at is null) do nothing returning id`,
    [tx.shopId, tx.newId(), workOrderId, tx.staffId, tx.now],
  );
  const holder = await holderOf(tx, workOrderId);
  if (!holder) throw new Error('a claim was refused and nobody holds the work order');
  if (!made) return heldBy(holder, timeZone);
  await letIntoPlan(tx, workOrderId);
  await tx.audit('work-order.claim', 'work-order', workOrderId, { claimId: made.id });
  tx.announce('claim', { workOrderId, claimId: made.id });
  return ok(holder);
}
