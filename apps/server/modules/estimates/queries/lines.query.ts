import type { Consequence } from '#libs/choice';
import type { Breakdown, NoCharge, PriceRule } from '#libs/estimate';
import type { MayDrive, Verdict } from '#libs/inspection';
import type { LineSpread } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';

export interface LineFindingRow {
  findingId: string;
  title: string;
  verdict: Extract<Verdict, 'watch' | 'repair'>;
  mayDrive: MayDrive;
  explanation: string | null;
  consequence: string | null;
  stake: Consequence | null;
  limitText: string | null;
  limitSource: string | null;
  readings: { name: string; value: string; unit: string }[];
  photos: string[];
}

export interface LineItemFacts {
  id: string;
  kind: 'part' | 'fluid' | 'sublet' | 'fee';
  name: string;
  partNumber: string | null;
  condition: string | null;
  source: string | null;
  quantityHundredths: number;
  unitPriceCents: number;
  priceRule: PriceRule;
  listCents: number | null;
  marginPpm: number | null;
  /** How the price came about; null for what was entered before there were rules. */
  priceBreakdown: Breakdown | null;
  unitCostCents: number | null;
  coreCents: number;
  expectedAt: string | null;
}

/** What it does not say is null. */
export interface StoredLineDiscount {
  labourPpm: number | null;
  itemsPpm: number | null;
  itemsCents: number | null;
  reason: string;
}

/** A line with everything that hangs on it, as it is stored. */
export interface LineFacts {
  id: string;
  repairOrderId: string;
  revisionId: string;
  sequence: number;
  title: string;
  explanation: string | null;
  consequence: string | null;
  /** What waiting puts at stake; null: what its worst finding says. */
  stake: Consequence | null;
  /** How little and how much it may come to; null for a line that is sure. */
  spread: LineSpread | null;
  requires: string[];
  excludes: string[];
  rateId: string;
  rateCentsPerHour: number;
  noCharge: NoCharge | null;
  discount: StoredLineDiscount | null;
  enteredHundredths: number | null;
  enteredSource: string | null;
  findings: LineFindingRow[];
  operations: { operationId: string; name: string; positions: string[] }[];
  steps: {
    stepId: string;
    name: string;
    position: string;
    hundredths: number;
    rateId: string | null;
    rateCentsPerHour: number | null;
  }[];
  items: LineItemFacts[];
}

const FINDINGS = `(select coalesce(json_agg(json_build_object('findingId', f.id, 'title', f.title, 'verdict', f.verdict,
      'mayDrive', f.may_drive, 'explanation', f.explanation, 'consequence', f.consequence, 'stake', f.stake,
      'limitText', o.limit_text, 'limitSource', o.limit_source,
      'readings', (select coalesce(json_agg(json_build_object('name', r.name, 'value', r.value, 'unit', r.unit) order by r.sequence), '[]')
                     from readings r where r.shop_id = f.shop_id and r.observation_id = f.observation_id),
      'photos', (select coalesce(json_agg(p.id order by p.added_at, p.id), '[]') from photos p
                  where p.shop_id = f.shop_id and (p.finding_id = f.id or p.observation_id = f.observation_id)))
      order by f.found_at, f.id), '[]')
   from line_findings lf join findings f on f.shop_id = lf.shop_id and f.id = lf.finding_id
   left join observations o on o.shop_id = f.shop_id and o.id = f.observation_id
  where lf.shop_id = l.shop_id and lf.line_id = l.id)`;

const OPERATIONS = `(select coalesce(json_agg(json_build_object('operationId', lo.operation_id, 'name', o.name, 'positions', lo.positions)
      order by o.code), '[]')
   from line_operations lo join operations o on o.shop_id = lo.shop_id and o.id = lo.operation_id
  where lo.shop_id = l.shop_id and lo.line_id = l.id)`;

const STEPS = `(select coalesce(json_agg(json_build_object('stepId', ls.step_id, 'name', s.name, 'position', ls.position,
      'hundredths', ls.hundredths, 'rateId', ls.rate_id, 'rateCentsPerHour', ls.rate_cents_per_hour) order by s.code, ls.position), '[]')
   from line_steps ls join steps s on s.shop_id = ls.shop_id and s.id = ls.step_id
  where ls.shop_id = l.shop_id and ls.line_id = l.id)`;

const ITEMS = `(select coalesce(json_agg(json_build_object('id', i.id, 'kind', i.kind, 'name', i.name, 'partNumber', i.part_number,
      'condition', i.condition, 'source', i.source, 'quantityHundredths', i.quantity_hundredths,
      'unitPriceCents', i.unit_price_cents, 'unitCostCents', i.unit_cost_cents, 'priceRule', i.price_rule,
      'listCents', i.list_cents, 'marginPpm', i.margin_ppm, 'priceBreakdown', i.price_breakdown, 'coreCents', i.core_cents,
      'expectedAt', i.expected_at) order by i.sequence), '[]')
   from line_items i where i.shop_id = l.shop_id and i.line_id = l.id)`;

const DISCOUNT = `case when l.discount_reason is not null then json_build_object('labourPpm', l.discount_labour_ppm,
      'itemsPpm', l.discount_items_ppm, 'itemsCents', l.discount_items_cents, 'reason', l.discount_reason) end`;

const SPREAD = `case when l.low_hundredths is null then null else json_build_object('lowHundredths', l.low_hundredths,
    'highHundredths', l.high_hundredths, 'lowItemsCents', l.low_items_cents, 'highItemsCents', l.high_items_cents) end`;

const related = (kind: 'requires' | 'excludes'): string =>
  `(select coalesce(json_agg(o.id order by o.sequence), '[]')
   from line_relations r join lines o on o.shop_id = r.shop_id and o.id = r.other_line_id
  where r.shop_id = l.shop_id and r.line_id = l.id and r.kind = '${kind}')`;

/** The lines of a repair order, or of one of its revisions, in order. */
export function linesOf(
  tx: Tx,
  of: { readonly repairOrderId: string } | { readonly revisionId: string },
): Promise<LineFacts[]> {
  const [column, id] =
    'revisionId' in of ? ['revision_id', of.revisionId] : ['repair_order_id', of.repairOrderId];
  return tx.rows<LineFacts>(
    `select l.id, l.repair_order_id as "repairOrderId", l.revision_id as "revisionId", l.sequence, l.title, l.explanation,
        l.consequence, l.stake, ${SPREAD} as spread, ${related('requires')} as requires, ${related('excludes')} as excludes, l.rate_id as "rateId", l.rate_cents_per_hour as "rateCentsPerHour",
        l.no_charge as "noCharge", ${DISCOUNT} as discount,
        l.entered_hundredths as "enteredHundredths", l.entered_source as "enteredSource",
        ${FINDINGS} as findings, ${OPERATIONS} as operations, ${STEPS} as steps, ${ITEMS} as items
       from lines l where l.shop_id = $1 and l.${column} = $2 order by l.revision_id, l.sequence`,
    [tx.shopId, id],
  );
}
