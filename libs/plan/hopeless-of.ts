import type { PlanModel } from './plan-model.js';

/**
 * Work that cannot be done as things stand: nobody holds the certificate, no bay takes the car, a tool is missing, or a
 * pin lies before the parts, or another car was worked on where its own should stand apart; then whatever follows it, and
 * the teardown that it belongs to: a car that could not be put together again is not taken apart.
 */
export function hopelessOf(
  model: Omit<PlanModel, 'closed' | 'hasClosed' | 'reserved' | 'isHopeless' | 'holdSpan'>,
): Uint8Array {
  const { operations, hold, holdBays, after } = model;
  const hopeless = new Uint8Array(operations);
  const heldNow = new Set(model.started.map(({ operation }) => hold[operation] ?? -1));
  const isAlone = (o: number): boolean => {
    if (model.crewFirst[o] === model.crewFirst[o + 1]) return true;
    const own = hold[o] ?? -1;
    if (own >= 0 && holdBays.first[own] === holdBays.first[own + 1]) return true;
    if (wasDrivenOut(model, own)) return true;
    if (isPinnedElsewhere(model, o)) return true;
    const pin = model.pinStart[o] ?? -1;
    if (pin >= 0 && pin < (model.release[o] ?? 0)) return true;
    const kinds = model.toolKinds.item.subarray(model.toolKinds.first[o], model.toolKinds.first[o + 1]);
    const units = (kind: number): number =>
      (model.unitsOfKind.first[kind + 1] ?? 0) - (model.unitsOfKind.first[kind] ?? 0);
    return kinds.some((kind) => kinds.filter((other) => other === kind).length > units(kind));
  };
  const mark = (o: number): void => {
    if (hopeless[o] === 1 || model.isStarted[o] === 1) return;
    hopeless[o] = 1;
    after.item.subarray(after.first[o], after.first[o + 1]).forEach(mark);
    const own = hold[o] ?? -1;
    if (own >= 0 && !heldNow.has(own))
      hold.forEach((other, mate) => (other === own ? mark(mate) : undefined));
  };
  for (let o = 0; o < operations; o++) if (isAlone(o)) mark(o);
  return hopeless;
}

/** Whether another car was worked on in the bay since the one of this hold was taken apart there. */
export function wasDrivenOut(
  { started, hold, order }: Pick<PlanModel, 'started' | 'hold' | 'order'>,
  own: number,
): boolean {
  if (own < 0) return false;
  const here = started.filter(({ operation }) => hold[operation] === own);
  const since = Math.min(...here.map(({ start }) => start));
  return here.some(({ operation, bay }) =>
    started.some(
      (other) =>
        bay >= 0 && other.bay === bay && other.end > since && order[other.operation] !== order[operation],
    ),
  );
}

/** Whether a person wants it in a bay other than the one in which its car stands apart already. */
export function isPinnedElsewhere(
  {
    problem,
    hold,
    holdBays,
    order,
    orderFirst,
  }: Pick<PlanModel, 'problem' | 'hold' | 'holdBays' | 'order' | 'orderFirst'>,
  o: number,
): boolean {
  const own = hold[o] ?? -1;
  const number = order[o] ?? 0;
  const wished = problem.repairOrders[number]?.operations[o - (orderFirst[number] ?? 0)]?.pin?.bay ?? null;
  if (own < 0 || wished === null) return false;
  const bays = holdBays.item.subarray(holdBays.first[own], holdBays.first[own + 1]);
  return !bays.some((bay) => problem.bays[bay]?.id === wished);
}
