import type { PlanModel } from './plan-model.js';

/** Which operations can be done by the same crews. */
export interface CrewKinds {
  /** The kind of each operation, counted from 0. */
  readonly of: Int32Array;
  readonly count: number;
  /** Somebody who can lead an operation of a kind, as `kind * technicians + technician`. */
  readonly pairs: readonly number[];
}

export function crewKinds(model: PlanModel): CrewKinds {
  const known = new Map<string, number>();
  const pairs = new Set<number>();
  const of = new Int32Array(model.operations);
  for (let o = 0; o < model.operations; o++) {
    const [first, last] = [model.crewFirst[o] ?? 0, model.crewFirst[o + 1] ?? 0];
    const leads = model.crewLead.subarray(first, last);
    const key = `${leads.join()}+${model.crewHelper.subarray(first, last).join()}`;
    const kind = known.get(key) ?? known.size;
    known.set(key, kind);
    of[o] = kind;
    if (leads.length > 1) for (const lead of leads) pairs.add(kind * model.technicians + lead);
  }
  return { of, count: known.size, pairs: [...pairs] };
}
