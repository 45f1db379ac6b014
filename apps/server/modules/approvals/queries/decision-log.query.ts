import { fail, ok, type Result } from '#libs/kernel';
import { authorisedCents, type Answer } from '#libs/approval';
import { cents } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import {
  AUTHORISATION_NOTICE,
  chargedCents,
  contingenciesOf,
  DECISION_COLUMNS,
  decisionResponse,
  openCapsCents,
} from '../../estimates/index.js';
import type { DecisionLogResponse, RecordedDecisionResponse } from '../dto/approval-link.response.js';
import { contingencyLog } from './contingency-log.query.js';
import type { Evidence } from '../use-cases/record-decisions.js';

type LogRow = Parameters<typeof decisionResponse>[0] & {
  title: string;
  linkId: string | null;
  recordedBy: string | null;
  counts: boolean;
  evidence: Evidence;
  answer: Answer;
};

function recorded(row: LogRow): RecordedDecisionResponse {
  const { evidence } = row;
  return {
    ...decisionResponse(row),
    title: row.title,
    linkId: row.linkId,
    recordedBy: row.recordedBy,
    counts: row.counts,
    evidence: {
      address: evidence.address ?? null,
      userAgent: evidence.userAgent ?? null,
      numberCalled: evidence.numberCalled ?? null,
      note: evidence.note ?? null,
      wording: evidence.wording ?? null,
      because: evidence.because,
      authorisedBeforeCents: evidence.authorisedBeforeCents,
      authorisedAfterCents: evidence.authorisedAfterCents,
    },
  };
}

/** Everything that was decided on a repair order, in the order of recording, with what proves it. */
export async function decisionLog(tx: Tx, repairOrderId: string): Promise<Result<DecisionLogResponse>> {
  const known = await tx.one('select 1 from repair_orders where shop_id = $1 and id = $2', [
    tx.shopId,
    repairOrderId,
  ]);
  if (!known) return fail('not-found', 'There is no such repair order in this shop.');
  const rows = await tx.rows<LogRow>(
    `select ${DECISION_COLUMNS}, l.title, d.link_id as "linkId", s.display_name as "recordedBy", d.evidence,
        d.sequence = max(d.sequence) over (partition by d.line_id) as counts
       from decisions d join lines l on l.shop_id = d.shop_id and l.id = d.line_id
       left join staff s on s.shop_id = d.shop_id and s.id = d.recorded_by
      where d.shop_id = $1 and d.repair_order_id = $2 order by d.decided_at, d.id`,
    [tx.shopId, repairOrderId],
  );
  const decisions = rows.map((row) => ({ ...row, shownTotalCents: cents(row.shownTotalCents) }));
  const contingencies = await contingenciesOf(tx, { repairOrderId });
  return ok({
    items: rows.map(recorded),
    contingencies: await contingencyLog(tx, repairOrderId),
    authorisedCents:
      authorisedCents([...decisions].sort((a, b) => a.sequence - b.sequence)) + chargedCents(contingencies),
    contingentCents: openCapsCents(contingencies),
    notice: AUTHORISATION_NOTICE,
  });
}
