import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { TakenPhoto } from '../../../platform/files/index.js';
import { keepPhoto, type PhotoResponse } from '../../inspections/index.js';
import { openStay } from '../../repair-orders/index.js';

interface Offered {
  readonly repairOrderId: string;
  readonly isSent: boolean;
}

/** Puts a stored photo to a contingency. The row lock makes two equal uploads come one after the other. */
export async function addProof(
  tx: Tx,
  contingencyId: string,
  photo: TakenPhoto,
): Promise<Result<PhotoResponse>> {
  const offered = await tx.one<Offered>(
    `select l.repair_order_id as "repairOrderId", v.sent_at is not null as "isSent"
       from contingencies c join lines l on l.shop_id = c.shop_id and l.id = c.line_id
       join revisions v on v.shop_id = l.shop_id and v.id = l.revision_id
      where c.shop_id = $1 and c.id = $2 for no key update of c`,
    [tx.shopId, contingencyId],
  );
  if (!offered) return fail('not-found', 'There is no such contingency in this shop.');
  return keepPhoto(tx, { contingencyId }, photo, async () => {
    if (!offered.isSent)
      return fail('revision-not-sent', 'Send the revision first: until then nothing can have happened.');
    const stay = await openStay(tx, offered.repairOrderId);
    return stay.ok ? ok(undefined) : stay;
  });
}
