import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { holdForWork, takeAuthorisedWork } from '../data/begin-work.js';
import { alreadyOn, beginEntry, endEntry, lockTechnician, notOn, type Activity } from '../data/clock.js';
import type { ClockSwitchRequest } from '../dto/clock.request.js';
import type { ClockActResponse } from '../dto/clock.response.js';
import { clockAct } from '../queries/clock-act.query.js';
import { openEntryOf } from '../queries/clock-entries.query.js';

/** From one thing to another with one tap: the one ends and the other begins at the same instant, or neither. */
export async function clockSwitch(tx: Tx, request: ClockSwitchRequest): Promise<Result<ClockActResponse>> {
  const to = activityOf(request);
  if (!to.ok) return to;
  const work = 'workOrderId' in to.value ? await takeAuthorisedWork(tx, to.value.workOrderId) : null;
  if (work && !work.ok) return work;
  await lockTechnician(tx, tx.staffId);
  const running = await openEntryOf(tx, tx.staffId);
  if (!running) return notOn();
  if (isSame(running, to.value)) return alreadyOn(running);
  const held = work ? await holdForWork(tx, work.value) : ok(undefined);
  if (!held.ok) return held;
  const at = await endEntry(tx, running, 'switch');
  if (!at) return notOn();
  const id = await beginEntry(tx, to.value, at);
  return ok(await clockAct(tx, id, running.id));
}

function activityOf({ workOrderId, indirectKind }: ClockSwitchRequest): Result<Activity> {
  if (workOrderId !== undefined && indirectKind === undefined)
    return ok({ workOrderId: workOrderId.toLowerCase() });
  if (workOrderId === undefined && indirectKind !== undefined) return ok({ indirectKind });
  return fail('request-invalid', 'Say either the work order or the kind of indirect time.', {
    fields: ['/workOrderId', '/indirectKind'].map((pointer) => ({
      pointer,
      detail: 'Give exactly one of the two.',
    })),
  });
}

const isSame = (
  running: { workOrderId: string | null; indirectKind: string | null },
  to: Activity,
): boolean =>
  'workOrderId' in to ? running.workOrderId === to.workOrderId : running.indirectKind === to.indirectKind;
