import type { Tx } from '../../../platform/database/tx.js';
import type { PlanCauseResponse } from '../dto/plan-run.response.js';

/** Changes after which another plan may be better or the present one may not hold. */
export const PLAN_KINDS = [
  ...['assignment', 'bay', 'calendar', 'claim', 'clock', 'decision', 'part', 'plan-settings'],
  ...['repair-order', 'reservation', 'work-order'],
] as const;

const MOST_TOLD = 40;

interface Row {
  readonly last: string;
  readonly at: Date;
  readonly kind: string;
  readonly subjects: Record<string, string>;
  readonly number: number | null;
  readonly title: string | null;
  readonly orderNumber: number | null;
  readonly person: string | null;
  readonly bay: string | null;
  readonly tool: string | null;
}

export interface CausesSince {
  readonly causes: PlanCauseResponse[];
  /** The last event that was looked at. */
  readonly until: string | null;
}

/**
 * What happened since the last run that was stored, from the shop's live events: they are written by the transaction of the
 * act, in the order of commits, so that nothing is lost however many jobs became one. What the plan did itself carries its
 * run and is no cause.
 */
export async function causesSince(tx: Tx): Promise<CausesSince> {
  const rows = await tx.rows<Row>(
    `with since as (select coalesce(max(events_until), 0) as id from plan_runs where shop_id = $1),
     happened as (
       select e.id, e.at, e.kind, e.subjects from live_events e, since
        where e.shop_id = $1 and e.id > since.id and e.kind = any ($2) and not e.subjects ? 'planRunId')
     select max(h.id) over () as last, h.at, h.kind, h.subjects, w.number, w.title, r.number as "orderNumber", s.display_name as person,
            b.name as bay, t.name as tool
       from happened h
       left join work_orders w on w.shop_id = $1 and w.id = (h.subjects->>'workOrderId')::uuid
       left join repair_orders r on r.shop_id = $1 and r.id = (h.subjects->>'repairOrderId')::uuid
       left join staff s on s.shop_id = $1 and s.id = (h.subjects->>'technicianId')::uuid
       left join bays b on b.shop_id = $1 and b.id = (h.subjects->>'bayId')::uuid
       left join special_tools t on t.shop_id = $1 and t.id = (h.subjects->>'toolId')::uuid
      order by h.id desc limit ${MOST_TOLD}`,
    [tx.shopId, [...PLAN_KINDS]],
  );
  const causes = rows.reverse().map((row) => ({
    ...{ kind: kindOf(row), words: wordsFor(row), at: row.at.toISOString(), subjects: row.subjects },
  }));
  // Once is enough: hours and skills of one person are two events and one thing to read.
  const told = new Map(causes.map((cause) => [cause.words, cause]));
  return { causes: [...told.values()], until: rows[0]?.last ?? null };
}

const VERBS: Readonly<Record<string, string>> = {
  assignment: 'was given, moved or lost a place by hand',
  claim: 'was claimed or given back',
  clock: 'was clocked on or off',
  'work-order': 'was released, changed, finished or withdrawn',
  decision: 'was decided about',
};

/** The floor's events are of one kind, whatever of it changed; people ask whether it was a person, a bay or a tool. */
function kindOf({ kind, subjects }: Row): string {
  if (kind !== 'bay' && kind !== 'calendar') return kind;
  if ('technicianId' in subjects) return 'technician';
  if ('toolId' in subjects) return 'tool';
  return 'bayId' in subjects ? 'bay' : kind;
}

function floorWords(row: Row): string {
  const isCalendar = row.kind === 'calendar';
  switch (kindOf(row)) {
    case 'technician': {
      const who = row.person ?? 'a technician';
      return isCalendar ? `An absence of ${who} was changed.` : `Shifts or skills of ${who} were changed.`;
    }
    case 'tool':
    case 'bay': {
      const what = row.tool ?? row.bay ?? 'Something on the floor';
      return isCalendar
        ? `${what} was taken out of service, or its time was changed.`
        : `${what} was changed.`;
    }
    default:
      return 'Days on which the shop is closed were changed.';
  }
}

function wordsFor(row: Row): string {
  const { kind, number, title, orderNumber, person } = row;
  const work = number === null ? null : `Work order ${number} (${title ?? ''})`;
  const order = orderNumber === null ? null : `Repair order ${orderNumber}`;
  if (kind === 'part') return `Parts came in or are expected at another time${order ? ` (${order})` : ''}.`;
  if (kind === 'plan-settings') return 'The settings of the plan were changed.';
  if (kind === 'reservation') return 'A reservation was made, changed or ended.';
  if (kind === 'bay' || kind === 'calendar') return floorWords(row);
  if (kind === 'clock' && work === null)
    return `${person ?? 'Somebody'} came, went or changed to other work.`;
  return `${work ?? order ?? 'Work'} ${VERBS[kind] ?? 'was changed'}.`;
}
