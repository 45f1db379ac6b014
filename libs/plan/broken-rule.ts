import type { PlanAssignment, PlanOperation, PlanRepairOrder } from './plan-problem.js';

export type PlanRule =
  | 'operation-unknown'
  | 'operation-twice'
  | 'operation-missing'
  | 'before-now'
  | 'before-parts'
  | 'before-arrival'
  | 'before-predecessor'
  | 'outside-shift'
  | 'duration-wrong'
  | 'technician-unknown'
  | 'technician-engaged'
  | 'crew-size'
  | 'skill-missing'
  | 'skill-expired'
  | 'bay-missing'
  | 'bay-not-needed'
  | 'bay-unknown'
  | 'bay-kind'
  | 'vehicle-too-high'
  | 'lift-missing'
  | 'lift-kind'
  | 'vehicle-too-heavy'
  | 'lift-expired'
  | 'bay-closed'
  | 'tool-unknown'
  | 'tools-wrong'
  | 'tool-closed'
  | 'technician-overlap'
  | 'bay-overlap'
  | 'tool-overlap'
  | 'vehicle-overlap'
  | 'vehicle-moved'
  | 'started-moved'
  | 'pin-broken';

export interface BrokenRule {
  readonly rule: PlanRule;
  readonly operations: readonly string[];
  readonly detail: string;
}

/** An assignment with what it is for. */
export interface Placed {
  readonly at: PlanAssignment;
  readonly operation: PlanOperation;
  readonly order: PlanRepairOrder;
}
