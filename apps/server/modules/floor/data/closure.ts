import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import type { ChangeClosureRequest, CloseBayRequest } from '../dto/calendar.request.js';
import type { BayClosureRow } from './bay-closure.entity.js';
import { outOfService } from './out-of-service.js';
import { checkPeriod } from './period.js';

/** What a bay's and a tool's time out of service have in common. */
type Closure = Pick<
  BayClosureRow,
  'id' | 'startsAt' | 'endsAt' | 'reason' | 'endedAt' | 'endedBy' | 'version'
>;

/** Whose time it is: a bay, or one unit of a tool. */
export type OutOfService =
  | { readonly table: 'bay_closures'; readonly bayId: string }
  | { readonly table: 'tool_closures'; readonly toolId: string; readonly unit: number };

/** A new time out of service, checked against those that are known. The caller holds the bay or the tool. */
export async function newClosure(tx: Tx, of: OutOfService, request: CloseBayRequest) {
  const startsAt = request.startsAt === undefined ? tx.now : new Date(request.startsAt);
  const endsAt = request.endsAt == null ? null : new Date(request.endsAt);
  const period = checkPeriod(startsAt, endsAt);
  if (!period.ok) return period;
  const free = await notOutYet(tx, of, startsAt, endsAt, null);
  if (!free.ok) return free;
  return ok({
    shopId: tx.shopId,
    id: tx.newId(),
    startsAt,
    endsAt,
    reason: request.reason,
    recordedBy: tx.staffId,
    recordedAt: tx.now,
    endedBy: null,
    endedAt: null,
    version: 1,
  });
}

/** What changes of a time out of service. The caller holds its row. */
export async function changedClosure(
  tx: Tx,
  of: OutOfService,
  row: Closure,
  version: number | '*',
  request: ChangeClosureRequest,
): Promise<Result<Partial<Closure>>> {
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  if (row.endedAt !== null) return over(row.endedAt);
  const common = { reason: request.reason ?? row.reason, version: row.version + 1 };
  if (request.isBackInService === true) {
    if (request.endsAt !== undefined) return bothEnds();
    if (row.endsAt !== null && row.endsAt <= tx.now) return over(row.endsAt);
    return ok({ ...common, endedAt: tx.now, endedBy: tx.staffId });
  }
  if (request.endsAt === undefined) return ok(common);
  const endsAt = request.endsAt === null ? null : new Date(request.endsAt);
  const period = checkPeriod(row.startsAt, endsAt);
  if (!period.ok) return period;
  const free = await notOutYet(tx, of, row.startsAt, endsAt, row.id);
  return free.ok ? ok({ ...common, endsAt }) : free;
}

function over(since: Date) {
  const detail = `It is back in service since ${since.toISOString()}. Record a new time if it is out again.`;
  return fail('closure-over', detail, { facts: { since: since.toISOString() } });
}

function bothEnds() {
  const detail = 'Leave it out when it is back in service now.';
  return fail('request-invalid', 'Back now or expected later: say one of the two.', {
    fields: [{ pointer: '/endsAt', detail }],
  });
}

async function notOutYet(
  tx: Tx,
  of: OutOfService,
  startsAt: Date,
  endsAt: Date | null,
  exceptId: string | null,
): Promise<Result<void>> {
  const isBay = of.table === 'bay_closures';
  const other = await tx.one<{ id: string; startsAt: Date; endsAt: Date | null; reason: string }>(
    `select c.id, c.starts_at as "startsAt", least(c.ends_at, c.ended_at) as "endsAt", c.reason
       from ${of.table} c
      where c.shop_id = $1 and ${isBay ? 'c.bay_id = $5' : 'c.tool_id = $5 and c.unit = $6'}
        and c.id is distinct from $4 and ${outOfService('c')} && tstzrange($2, $3) order by c.starts_at limit 1`,
    [tx.shopId, startsAt, endsAt, exceptId, ...(isBay ? [of.bayId] : [of.toolId, of.unit])],
  );
  if (!other) return ok(undefined);
  const closure = {
    id: other.id,
    startsAt: other.startsAt.toISOString(),
    endsAt: other.endsAt?.toISOString() ?? null,
  };
  const detail = `It is out of service in that time already: ${other.reason}. Change that entry instead.`;
  return fail('out-of-service-already', detail, { facts: { closure: { ...closure, reason: other.reason } } });
}
