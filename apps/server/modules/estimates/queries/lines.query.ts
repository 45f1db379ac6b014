import type { MayDrive, Verdict } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';

export interface LineFindingRow {
  findingId: string;
  title: string;
  verdict: Extract<Verdict, 'watch' | 'repair'>;
  mayDrive: MayDrive;
  explanation: string | null;
  consequence: string | null;
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
  unitCostCents: number | null;
  coreCents: number;
  expectedAt: string | null;
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
  rateId: string;
  rateCentsPerHour: number;
  enteredHundredths: number | null;
  enteredSource: string | null;
  findings: LineFindingRow[];
  operations: { operationId: string; name: string; positions: string[] }[];
  steps: { stepId: string; name: string; position: string; hundredths: number }[];
  items: LineItemFacts[];
}

const FINDINGS = `(select coalesce(json_agg(json_build_object('findingId', f.id, 'title', f.title, 'verdict', f.verdict,
      'mayDrive', f.may_drive, 'explanation', f.explanation, 'consequence', f.consequence,
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
      'hundredths', ls.hundredths) order by s.code, ls.position), '[]')
   from line_steps ls join steps s on s.shop_id = ls.shop_id and s.id = ls.step_id
  where ls.shop_id = l.shop_id and ls.line_id = l.id)`;

const ITEMS = `(select coalesce(json_agg(json_build_object('id', i.id, 'kind', i.kind, 'name', i.name, 'partNumber', i.part_number,
      'condition', i.condition, 'source', i.source, 'quantityHundredths', i.quantity_hundredths,
      'unitPriceCents', i.unit_price_cents, 'unitCostCents', i.unit_cost_cents, 'coreCents', i.core_cents,
      'expectedAt', i.expected_at) order by i.sequence), '[]')
   from line_items i where i.shop_id = l.shop_id and i.line_id = l.id)`;

/** The lines of a repair order, or of one of its revisions, in order. */
export function linesOf(
  tx: Tx,
  of: { readonly repairOrderId: string } | { readonly revisionId: string },
): Promise<LineFacts[]> {
  const [column, id] =
    'revisionId' in of ? ['revision_id', of.revisionId] : ['repair_order_id', of.repairOrderId];
  return tx.rows<LineFacts>(
    `select l.id, l.repair_order_id as "repairOrderId", l.revision_id as "revisionId", l.sequence, l.title, l.explanation,
        l.consequence, l.rate_id as "rateId", l.rate_cents_per_hour as "rateCentsPerHour",
        l.entered_hundredths as "enteredHundredths", l.entered_source as "enteredSource",
        ${FINDINGS} as findings, ${OPERATIONS} as operations, ${STEPS} as steps, ${ITEMS} as items
       from lines l where l.shop_id = $1 and l.${column} = $2 order by l.revision_id, l.sequence`,
    [tx.shopId, id],
  );
}
