import type { Tx } from '../../../platform/database/tx.js';
import type { RecordedContingencyResponse } from '../dto/contingency.response.js';

/** Everything that was said to the contingencies of a repair order, in the order of recording. */
export async function contingencyLog(tx: Tx, repairOrderId: string): Promise<RecordedContingencyResponse[]> {
  const rows = await tx.rows<Omit<RecordedContingencyResponse, 'decidedAt'> & { decidedAt: Date }>(
    `select d.id, d.contingency_id as "contingencyId", d.line_id as "lineId", d.revision_id as "revisionId", c.what, d.sequence,
        d.agreed, d.cap_cents as "capCents", d.because, d.shown_sha256 as "shownSha256", d.decided_at as "decidedAt",
        d.channel, d.decided_by as "decidedBy", d.link_id as "linkId", s.display_name as "recordedBy",
        d.sequence = max(d.sequence) over (partition by d.contingency_id) as counts
       from contingency_decisions d
       join contingencies c on c.shop_id = d.shop_id and c.id = d.contingency_id
       left join staff s on s.shop_id = d.shop_id and s.id = d.recorded_by
      where d.shop_id = $1 and d.repair_order_id = $2 order by d.decided_at, d.id`,
    [tx.shopId, repairOrderId],
  );
  return rows.map((row) => ({ ...row, decidedAt: row.decidedAt.toISOString() }));
}
