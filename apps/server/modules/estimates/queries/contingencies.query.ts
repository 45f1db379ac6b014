import type { ItemKind } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';

export interface ContingencyItemFacts {
  readonly id: string;
  readonly kind: ItemKind;
  readonly name: string;
  readonly partNumber: string | null;
  readonly condition: string | null;
  readonly source: string | null;
  readonly quantityHundredths: number;
  readonly unitPriceCents: number;
  readonly unitCostCents: number | null;
  readonly coreCents: number;
}

/** What was told when it happened, and what is charged for it. */
export interface TriggerFacts {
  readonly workOrderId: string;
  readonly reason: string;
  readonly photoId: string;
  readonly hundredths: number;
  readonly labourCents: number;
  readonly partsCents: number;
  readonly coreCents: number;
  readonly suppliesCents: number;
  readonly taxCents: number;
  readonly totalCents: number;
  readonly uncappedCents: number;
  readonly suppliesBaseCents: number;
  readonly triggeredAt: string;
  readonly triggeredBy: string;
}

/** A contingency as it is stored, with the latest answer to it and whether it has happened. */
export interface ContingencyFacts {
  readonly id: string;
  readonly lineId: string;
  readonly revisionId: string;
  readonly sequence: number;
  readonly what: string;
  readonly chancePpm: number;
  readonly hundredths: number;
  readonly capCents: number;
  readonly items: readonly ContingencyItemFacts[];
  /** Null while nobody has answered. */
  readonly answer: {
    readonly id: string;
    readonly sequence: number;
    readonly agreed: boolean;
    readonly decidedAt: string;
  } | null;
  readonly trigger: TriggerFacts | null;
}

const ITEMS = `(select coalesce(json_agg(json_build_object('id', i.id, 'kind', i.kind, 'name', i.name, 'partNumber', i.part_number,
      'condition', i.condition, 'source', i.source, 'quantityHundredths', i.quantity_hundredths,
      'unitPriceCents', i.unit_price_cents, 'unitCostCents', i.unit_cost_cents, 'coreCents', i.core_cents) order by i.sequence), '[]')
   from contingency_items i where i.shop_id = c.shop_id and i.contingency_id = c.id)`;

const ANSWER = `(select json_build_object('id', d.id, 'sequence', d.sequence, 'agreed', d.agreed, 'decidedAt', d.decided_at)
   from contingency_decisions d where d.shop_id = c.shop_id and d.contingency_id = c.id order by d.sequence desc limit 1)`;

const TRIGGER = `(select json_build_object('workOrderId', t.work_order_id, 'reason', t.reason, 'photoId', t.photo_id,
      'hundredths', t.hundredths, 'labourCents', t.labour_cents, 'partsCents', t.parts_cents, 'coreCents', t.core_cents,
      'suppliesCents', t.supplies_cents, 'taxCents', t.tax_cents, 'totalCents', t.total_cents, 'uncappedCents', t.uncapped_cents,
      'suppliesBaseCents', t.supplies_base_cents, 'triggeredAt', t.triggered_at, 'triggeredBy', s.display_name)
   from contingency_triggers t join staff s on s.shop_id = t.shop_id and s.id = t.triggered_by
  where t.shop_id = c.shop_id and t.contingency_id = c.id)`;

type Whose =
  { readonly repairOrderId: string } | { readonly revisionId: string } | { readonly lineId: string };

function condition(whose: Whose): readonly [column: string, id: string] {
  if ('lineId' in whose) return ['l.id', whose.lineId];
  if ('revisionId' in whose) return ['l.revision_id', whose.revisionId];
  return ['l.repair_order_id', whose.repairOrderId];
}

/** The contingencies of a repair order, a revision or a line, in order. */
export function contingenciesOf(tx: Tx, whose: Whose): Promise<ContingencyFacts[]> {
  const [column, id] = condition(whose);
  return tx.rows<ContingencyFacts>(
    `select c.id, c.line_id as "lineId", l.revision_id as "revisionId", c.sequence, c.what, c.chance_ppm as "chancePpm",
        c.hundredths, c.cap_cents as "capCents", ${ITEMS} as items, ${ANSWER} as answer, ${TRIGGER} as trigger
       from contingencies c join lines l on l.shop_id = c.shop_id and l.id = c.line_id
      where c.shop_id = $1 and ${column} = $2 order by l.revision_id, l.sequence, c.sequence`,
    [tx.shopId, id],
  );
}
