import { checkPlan, checkProblem, measurePlan } from '#libs/plan';
import { ok } from '#libs/kernel';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readAssignments, readPlanProblem } from './read-plan.js';

export const checkSchedule: Computation = {
  name: 'check-schedule',
  shape:
    '{as for schedule, assignments: [{operation, start, end, bay, technicians, tools?}], unplaced?: [{operation}]} -> {broken: [{rule, operations, detail}], objective}',
  run: (element) => {
    const read = new FieldReader(element);
    const problem = readPlanProblem(read);
    const assignments = readAssignments(read, 'assignments');
    const unplaced = read.has('unplaced')
      ? read.objects('unplaced', (one) => ({ operation: one.id('operation'), why: '' }))
      : [];
    return read.answer(() => {
      const checked = checkProblem(problem);
      if (!checked.ok) return checked;
      const broken = checkPlan(problem, { assignments, unplaced });
      return ok({ broken, objective: measurePlan(problem, { assignments }) });
    });
  },
};
