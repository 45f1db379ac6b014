import { bookHundredths, cents } from '#libs/kernel';
import type { Answer, StandingDecision } from '#libs/approval';
import type { AgreedLine, CarriedStep } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import type { DecisionResponse } from '../dto/decision.response.js';

interface DecisionFacts {
  id: string;
  lineId: string;
  revisionId: string;
  sequence: number;
  answer: Answer;
  shownHundredths: number;
  shownLabourCents: number;
  shownPartsCents: number;
  shownSuppliesCents: number;
  shownTaxCents: number;
  shownTotalCents: number;
  shownSteps: CarriedStep[] | null;
  shownDiscountCents: number | null;
  shownOrderDiscountCents: number | null;
  shownSuppliesBaseCents: number | null;
  shownSha256: string;
  decidedAt: Date;
  channel: string;
  decidedBy: string;
  lookAgainOn: string | null;
}

/** The latest decision on a line, for the computations and for answers. */
export interface LatestDecision extends StandingDecision {
  readonly revisionId: string;
  readonly sequence: number;
  readonly agreed: AgreedLine;
  readonly response: DecisionResponse;
}

export const DECISION_COLUMNS = `d.id, d.line_id as "lineId", d.revision_id as "revisionId", d.sequence, d.answer,
  d.shown_hundredths as "shownHundredths", d.shown_labour_cents as "shownLabourCents", d.shown_parts_cents as "shownPartsCents",
  d.shown_supplies_cents as "shownSuppliesCents", d.shown_tax_cents as "shownTaxCents", d.shown_total_cents as "shownTotalCents",
  d.shown_discount_cents as "shownDiscountCents",
  d.shown_sha256 as "shownSha256", d.decided_at as "decidedAt", d.channel, d.decided_by as "decidedBy",
  to_char(d.look_again_on, 'YYYY-MM-DD') as "lookAgainOn"`;

export function decisionResponse(
  row: Omit<DecisionFacts, 'shownSteps' | 'shownOrderDiscountCents' | 'shownSuppliesBaseCents'>,
): DecisionResponse {
  return {
    id: row.id,
    lineId: row.lineId,
    revisionId: row.revisionId,
    sequence: row.sequence,
    answer: row.answer,
    shownHundredths: row.shownHundredths,
    shownLabourCents: row.shownLabourCents,
    shownPartsCents: row.shownPartsCents,
    shownSuppliesCents: row.shownSuppliesCents,
    shownTaxCents: row.shownTaxCents,
    shownDiscountCents: row.shownDiscountCents ?? 0,
    shownTotalCents: row.shownTotalCents,
    shownSha256: row.shownSha256,
    decidedAt: row.decidedAt.toISOString(),
    channel: row.channel,
    decidedBy: row.decidedBy,
    lookAgainOn: row.lookAgainOn,
  };
}

function latest(row: DecisionFacts): LatestDecision {
  return {
    lineId: row.lineId,
    revisionId: row.revisionId,
    sequence: row.sequence,
    answer: row.answer,
    shownHundredths: bookHundredths(row.shownHundredths),
    shownLabourCents: cents(row.shownLabourCents),
    shownPartsCents: cents(row.shownPartsCents),
    shownSuppliesCents: cents(row.shownSuppliesCents),
    shownTaxCents: cents(row.shownTaxCents),
    shownTotalCents: cents(row.shownTotalCents),
    lookAgainOn: row.lookAgainOn,
    agreed: {
      id: row.lineId,
      steps: row.shownSteps ?? [],
      labourCents: cents(row.shownLabourCents),
      suppliesCents: cents(row.shownSuppliesCents),
      ...(row.shownSuppliesBaseCents === null
        ? {}
        : { suppliesBaseCents: cents(row.shownSuppliesBaseCents) }),
      ...(row.shownOrderDiscountCents === null
        ? {}
        : { orderDiscountCents: cents(row.shownOrderDiscountCents) }),
    },
    response: decisionResponse(row),
  };
}

/** What counts now: the latest decision of every line of a repair order that has one. */
export async function standingDecisions(tx: Tx, repairOrderId: string): Promise<Map<string, LatestDecision>> {
  const rows = await tx.rows<DecisionFacts>(
    `select distinct on (d.line_id) ${DECISION_COLUMNS}, d.shown_steps as "shownSteps", d.shown_order_discount_cents as "shownOrderDiscountCents",
        d.shown_supplies_base_cents as "shownSuppliesBaseCents"
       from decisions d where d.shop_id = $1 and d.repair_order_id = $2 order by d.line_id, d.sequence desc`,
    [tx.shopId, repairOrderId],
  );
  return new Map(rows.map((row) => [row.lineId, latest(row)]));
}

/** Lines of a repair order on which work has begun, for reading; whoever writes asks `workBegunOnLines`, which locks. */
export async function begunLines(tx: Tx, repairOrderId: string): Promise<Set<string>> {
  const rows = await tx.rows<{ lineId: string }>(
    `select w.line_id as "lineId" from work_orders w
      where w.shop_id = $1 and w.repair_order_id = $2 and w.withdrawn_at is null
        and (w.finished_at is not null or exists (select 1 from clock_entries c
              where c.shop_id = w.shop_id and c.work_order_id = w.id and c.superseded_at is null)
          or exists (select 1 from contingency_triggers t where t.shop_id = w.shop_id and t.work_order_id = w.id))`,
    [tx.shopId, repairOrderId],
  );
  return new Set(rows.map(({ lineId }) => lineId));
}
