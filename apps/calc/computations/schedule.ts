import { explainPlan, plan } from '#libs/plan';
import { ok } from '#libs/kernel';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readPlanProblem } from './read-plan.js';

const USUAL_MS = 1000;
const LONGEST_MS = 600_000;

export const schedule: Computation = {
  name: 'schedule',
  shape:
    '{now, technicians: [{id, works: [[from, to]], skills?: [{skill, until?}]}], bays: [{id, kind?, maxHeightMm?, lift?: {kind, capacityKg, until?}, outOfService?}], tools?: [{id, kind, outOfService?}], repairOrders: [{id, promised?, weight?, arrives?, vehicle?: {weightKg?, heightMm?}, operations: [{id, minutes, minutesBy?, after?, earliest?, bay?: {lift?, liftKind?, kinds?}, skills?, crew?: 1|2, helperSkills?, tools?, teardown?, started?, pin?}]}], previous?, frozenUntil?, weights?, timeLimitMs?: 1000, seed?: 1} -> {assignments: [{operation, start, end, bay, technicians, tools}], unplaced, objective: {unplaced, frozenMoved, lateness, change, blocked, finish}, bound: {lateness}, explanations, late, ms}',
  run: (element) => {
    const read = new FieldReader(element);
    const problem = readPlanProblem(read);
    const timeLimitMs = read.optionalWhole('timeLimitMs', { min: 1, max: LONGEST_MS }) ?? USUAL_MS;
    const seed = read.optionalWhole('seed', { min: 0 }) ?? 1;
    return read.answer(() => {
      const now = (): number => performance.now();
      const start = now();
      const made = plan(problem, { timeLimitMs, now, seed });
      if (!made.ok) return made;
      const { assignments, unplaced, cost, latenessBound } = made.value;
      const { operations, late } = explainPlan(problem, made.value);
      const ms = Math.round((now() - start) * 1000) / 1000;
      return ok({
        assignments,
        unplaced,
        objective: cost,
        bound: { lateness: latenessBound },
        explanations: operations,
        late,
        ms,
      });
    });
  },
};
