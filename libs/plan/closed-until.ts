import type { PlanModel } from './plan-model.js';

/** When the first closed time of a resource that meets [start, end) is over; -1 when there is none but an owner's own. */
export function closedUntil(
  { closed }: Pick<PlanModel, 'closed'>,
  resource: number,
  start: number,
  end: number,
  owner: number,
  otherOwner: number,
): number {
  const { first, item } = closed;
  const last = first[resource + 1] ?? 0;
  for (let k = first[resource] ?? 0; k < last; k += 3) {
    const to = item[k + 1] ?? 0;
    if ((item[k] ?? 0) >= end) return -1;
    if (to <= start) continue;
    const whose = item[k + 2] ?? -1;
    if (whose === -1 || (whose !== owner && whose !== otherOwner)) return to;
  }
  return -1;
}
