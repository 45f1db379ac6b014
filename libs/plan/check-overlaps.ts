import type { BrokenRule, Placed, PlanRule } from './broken-rule.js';
import type { Naming } from './naming.js';
import type { PlanProblem } from './plan-problem.js';

interface Stay {
  readonly from: number;
  readonly to: number;
  readonly who: string;
  readonly operations: readonly string[];
}

/** That nobody and nothing is in two places, and that a car that is apart is not moved. */
export function overlapRules(
  problem: PlanProblem,
  placed: ReadonlyMap<string, Placed>,
  name: Naming,
): BrokenRule[] {
  const broken: BrokenRule[] = [];
  const byTechnician = new Map<string, Stay[]>();
  const byTool = new Map<string, Stay[]>();
  const byBay = new Map<string, Stay[]>();
  const put = (map: Map<string, Stay[]>, key: string, stay: Stay): void => {
    const known = map.get(key);
    if (known === undefined) map.set(key, [stay]);
    else known.push(stay);
  };
  const ofOrder = new Map<string, Placed[]>();
  for (const one of placed.values()) {
    const known = ofOrder.get(one.order.id);
    if (known === undefined) ofOrder.set(one.order.id, [one]);
    else known.push(one);
  }
  for (const { at, operation } of placed.values()) {
    const stay = { from: at.start, to: at.end, who: operation.id, operations: [operation.id] };
    for (const id of at.technicians) put(byTechnician, id, stay);
    for (const id of at.tools) put(byTool, id, stay);
  }
  for (const order of problem.repairOrders) {
    const mine = (ofOrder.get(order.id) ?? []).filter((one) => one.at.bay !== null);
    clashes(
      mine.map(({ at, operation }) => ({
        from: at.start,
        to: at.end,
        who: operation.id,
        operations: [operation.id],
      })),
      'vehicle-overlap',
      name(order.id),
      broken,
    );
    const stays = staysOf(mine, broken);
    for (const { bay, stay } of stays) put(byBay, bay, { ...stay, who: order.id });
    stays.forEach(({ bay, stay }, k) => {
      for (const other of stays.slice(k + 1))
        if (other.bay !== bay && other.stay.from < stay.to && stay.from < other.stay.to)
          broken.push({
            rule: 'vehicle-moved',
            operations: [...stay.operations, ...other.stay.operations],
            detail: `${name(order.id)} would stand in two bays.`,
          });
    });
  }
  for (const [id, stays] of byTechnician) clashes(stays, 'technician-overlap', name(id), broken);
  for (const [id, stays] of byTool) clashes(stays, 'tool-overlap', name(id), broken);
  for (const [id, stays] of byBay) clashes(stays, 'bay-overlap', name(id), broken);
  return broken;
}

/** How long a repair order's vehicle is kept where: a whole teardown with its waiting, other work on its own. */
function staysOf(mine: readonly Placed[], broken: BrokenRule[]): { bay: string; stay: Stay }[] {
  const groups = new Map<string, Placed[]>();
  for (const one of mine) {
    const { teardown, id } = one.operation;
    const key = teardown == null ? `one ${id}` : `all ${teardown}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const operations = group.map(({ operation }) => operation.id);
    const bays = new Set(group.map(({ at }) => at.bay ?? ''));
    if (bays.size > 1)
      broken.push({ rule: 'vehicle-moved', operations, detail: 'The vehicle is apart and cannot be moved.' });
    const from = Math.min(...group.map(({ at }) => at.start));
    const to = Math.max(...group.map(({ at }) => at.end));
    return { bay: group[0]?.at.bay ?? '', stay: { from, to, who: '', operations } };
  });
}

function clashes(stays: readonly Stay[], rule: PlanRule, where: string, broken: BrokenRule[]): void {
  const sorted = [...stays].sort((a, b) => a.from - b.from || a.to - b.to);
  sorted.forEach((stay, k) => {
    for (let next = k + 1; next < sorted.length; next++) {
      const other = sorted[next];
      if (other === undefined || other.from >= stay.to) break;
      if (other.who !== stay.who || rule !== 'bay-overlap')
        broken.push({
          rule,
          operations: [...stay.operations, ...other.operations],
          detail: `${where} would be taken twice at the same time.`,
        });
    }
  });
}
