import type { Result } from '#libs/kernel';
import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { PlannedWork } from '../api/plan-types.js';

export type Done = Promise<Result<unknown, ApiFault>>;
/** Runs what somebody does and says the words once it is done; `tellsRefusal`: the caller tells a refusal itself. */
export type Act = (done: Done, words: string, tellsRefusal?: boolean) => Promise<ApiFault | null>;

export const accept = (id: string): Done => call('post', '/api/v1/plan/runs/{id}/accept', { path: { id } });
export const reject = (id: string): Done => call('post', '/api/v1/plan/runs/{id}/reject', { path: { id } });

/** Whether the plan may move the work order's place; moves nothing itself. */
export const pin = (
  { assignmentId, version }: Pick<PlannedWork, 'assignmentId' | 'version'>,
  isPinned: boolean,
): Done =>
  call('patch', '/api/v1/assignments/{id}', {
    path: { id: assignmentId },
    headers: ifMatch(version),
    body: { isPinned },
  });

export const leaveOut = (workOrderId: string, leftOut: boolean): Done =>
  call('put', '/api/v1/work-orders/{id}/planning', { path: { id: workOrderId }, body: { leftOut } });
