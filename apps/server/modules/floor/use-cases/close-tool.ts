import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { changedClosure, newClosure } from '../data/closure.js';
import { onlyOne } from '../data/only-one.js';
import { SpecialToolRow } from '../data/special-tool.entity.js';
import { ToolClosureRow } from '../data/tool-closure.entity.js';
import type { ChangeClosureRequest, CloseToolRequest } from '../dto/calendar.request.js';
import type { ToolClosureResponse } from '../dto/calendar.response.js';
import { toolClosuresWanted } from '../queries/calendar.query.js';

/** Takes one unit of a special tool out of service for a time: lent, broken, away for calibration. */
export async function closeTool(
  tx: Tx,
  toolId: string,
  request: CloseToolRequest,
): Promise<Result<ToolClosureResponse>> {
  const tool = await tx.em.findOne(SpecialToolRow, {
    where: { shopId: tx.shopId, id: toolId },
    lock: { mode: 'for_no_key_update' },
  });
  if (!tool) return fail('not-found', 'There is no such special tool in this shop.');
  const { unit } = request;
  if (unit > tool.units) return noSuchUnit(tool);
  const row = await newClosure(tx, { table: 'tool_closures', toolId, unit }, request);
  if (!row.ok) return row;
  const { id, startsAt, endsAt, reason } = row.value;
  await tx.em.insert(ToolClosureRow, { ...row.value, toolId, unit });
  await tx.audit('special-tool.close', 'special-tool', toolId, {
    closureId: id,
    unit,
    startsAt,
    endsAt,
    reason,
  });
  tx.announce('calendar', { toolId, closureId: id });
  return ok(onlyOne(await toolClosuresWanted(tx, { id })));
}

function noSuchUnit({ name, units }: SpecialToolRow): Result<never> {
  const detail = units === 1 ? 'There is one: give 1.' : `Give a number from 1 to ${units}.`;
  return fail('request-invalid', `The shop has ${units} of "${name}".`, {
    fields: [{ pointer: '/unit', detail }],
  });
}

/** What is expected now, or that it is back in service. */
export async function changeToolClosure(
  tx: Tx,
  toolId: string,
  closureId: string,
  version: number | '*',
  request: ChangeClosureRequest,
): Promise<Result<ToolClosureResponse>> {
  const row = await tx.em.findOne(ToolClosureRow, {
    where: { shopId: tx.shopId, id: closureId, toolId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'This tool has no such time out of service.');
  const of = { table: 'tool_closures', toolId, unit: row.unit } as const;
  const changed = await changedClosure(tx, of, row, version, request);
  if (!changed.ok) return changed;
  await tx.em.update(ToolClosureRow, { shopId: tx.shopId, id: closureId }, changed.value);
  await tx.audit('special-tool.change-closure', 'special-tool', toolId, { closureId, ...request });
  tx.announce('calendar', { toolId, closureId });
  return ok(onlyOne(await toolClosuresWanted(tx, { id: closureId })));
}
