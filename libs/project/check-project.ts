import type { ProjectPlan, ProjectProblem } from './project-problem.js';

/** Every rule that a plan breaks; none when it is right. Written from the rules, shares no code with the solver. */
export function checkProject(problem: ProjectProblem, plan: ProjectPlan): string[] {
  const { activities, renewable, nonrenewable } = problem;
  const broken: string[] = [];
  if (plan.starts.length !== activities.length || plan.modes.length !== activities.length)
    return [`${activities.length} activities need as many starts and modes`];
  const chosen = activities.map(({ modes }, at) => modes[plan.modes[at] ?? -1]);
  chosen.forEach((mode, at) => {
    const start = plan.starts[at] ?? Number.NaN;
    if (mode === undefined) broken.push(`activity ${at} has no mode ${String(plan.modes[at])}`);
    if (!Number.isInteger(start) || start < 0) broken.push(`activity ${at} starts at ${start}`);
  });
  if (broken.length > 0) return broken;
  const ends = chosen.map((mode, at) => (plan.starts[at] ?? 0) + (mode?.duration ?? 0));
  activities.forEach(({ successors }, at) => {
    for (const next of successors) {
      if ((plan.starts[next] ?? 0) < (ends[at] ?? 0))
        broken.push(`activity ${next} starts before activity ${at} is done`);
    }
  });
  renewable.forEach((units, resource) => {
    // Use changes only where an activity starts, so those times are enough.
    for (const time of new Set(plan.starts)) {
      const held = chosen.reduce((sum, mode, at) => {
        const runs = (plan.starts[at] ?? 0) <= time && time < (ends[at] ?? 0);
        return runs ? sum + (mode?.holds[resource] ?? 0) : sum;
      }, 0);
      if (held > units) broken.push(`resource ${resource} holds ${held} of ${units} at ${time}`);
    }
  });
  nonrenewable.forEach((units, resource) => {
    const used = chosen.reduce((sum, mode) => sum + (mode?.consumes[resource] ?? 0), 0);
    if (used > units) broken.push(`resource ${resource} uses up ${used} of ${units}`);
  });
  const last = Math.max(0, ...ends);
  if (last !== plan.makespan) broken.push(`the project is done at ${last}, not ${plan.makespan} as claimed`);
  return broken;
}
