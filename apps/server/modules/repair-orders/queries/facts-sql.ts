import { workOrderState, type RepairOrderFacts, type WorkOrderFacts } from '#libs/workflow';

/** The facts that a stage is derived from, as selected by FACTS_COLUMNS. */
export interface FactsRow {
  inspection: RepairOrderFacts['inspection'];
  openFindings: number;
  lines: { unsent: number; undecided: number; decided: number };
  workOrders: WorkOrderFacts[];
  pickedUp: boolean;
}

/**
 * Columns over `repair_orders r`: one statement gathers the facts of one repair order or of a whole page. Findings to
 * watch do not count as open: they are left as they are, and come back by date or odometer.
 */
export const FACTS_COLUMNS = `
  (select case when count(*) = 0 then 'none' when bool_and(i.completed_at is not null) then 'completed' else 'started' end
     from inspections i where i.shop_id = r.shop_id and i.repair_order_id = r.id) as inspection,
  (select count(*)::int from findings f
    where f.shop_id = r.shop_id and f.repair_order_id = r.id and f.withdrawn_at is null and f.verdict = 'repair'
      and not exists (select 1 from line_findings lf where lf.shop_id = f.shop_id and lf.finding_id = f.id)) as "openFindings",
  (select json_build_object(
            'unsent', count(*) filter (where v.sent_at is null),
            'undecided', count(*) filter (where v.sent_at is not null and not x.decided),
            'decided', count(*) filter (where v.sent_at is not null and x.decided))
     from lines l
     join revisions v on v.shop_id = l.shop_id and v.id = l.revision_id
     cross join lateral (select exists (select 1 from decisions d where d.shop_id = l.shop_id and d.line_id = l.id) as decided) x
    where l.shop_id = r.shop_id and l.repair_order_id = r.id) as lines,
  coalesce((select json_agg(json_build_object(
              'withdrawn', w.withdrawn_at is not null,
              'claimed', c.id is not null,
              'clockedSinceClaim', exists (select 1 from clock_entries e
                 where e.shop_id = w.shop_id and e.work_order_id = w.id and e.superseded_at is null
                   and e.technician_id = c.technician_id and e.started_at >= c.claimed_at),
              'onTheClock', exists (select 1 from clock_entries e
                 where e.shop_id = w.shop_id and e.work_order_id = w.id and e.superseded_at is null and e.ended_at is null),
              'finished', w.finished_at is not null,
              'checked', w.checked_at is not null) order by w.number)
     from work_orders w
     left join claims c on c.shop_id = w.shop_id and c.work_order_id = w.id and c.released_at is null
    where w.shop_id = r.shop_id and w.repair_order_id = r.id), '[]') as "workOrders",
  r.picked_up_at is not null as "pickedUp"`;

export function factsOf(row: FactsRow): RepairOrderFacts {
  return {
    inspection: row.inspection,
    openFindings: row.openFindings,
    unsentLines: row.lines.unsent,
    undecidedLines: row.lines.undecided,
    decidedLines: row.lines.decided,
    workOrders: row.workOrders.map(workOrderState),
    pickedUp: row.pickedUp,
  };
}
