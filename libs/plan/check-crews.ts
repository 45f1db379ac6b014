import type { BrokenRule, Placed, PlanRule } from './broken-rule.js';
import type { Naming } from './naming.js';
import type { PlanProblem } from './plan-problem.js';

/** People with their skills, and tools by their kinds. */
export function crewRules(problem: PlanProblem, { at, operation }: Placed, name: Naming): BrokenRule[] {
  if (operation.started != null) return [];
  const broken: BrokenRule[] = [];
  const say = (rule: PlanRule, detail: string): void =>
    void broken.push({ rule, operations: [operation.id], detail });
  const { technicians } = at;
  if (technicians.length !== (operation.crew ?? 1) || new Set(technicians).size !== technicians.length)
    say('crew-size', `It needs ${operation.crew ?? 1} and has ${technicians.length}.`);
  technicians.forEach((id, place) => {
    const technician = problem.technicians.find((one) => one.id === id);
    if (technician === undefined) {
      say('technician-unknown', `There is no ${name(id)}.`);
      return;
    }
    for (const [from, to] of technician.engaged ?? [])
      if (from < at.end && at.start < to)
        say('technician-engaged', `${name(id)} is taken by something else.`);
    for (const skill of (place === 0 ? operation.skills : operation.helperSkills) ?? []) {
      const held = technician.skills?.filter((one) => one.skill === skill) ?? [];
      if (held.length === 0) say('skill-missing', `${name(id)} does not hold ${name(skill)}.`);
      else if (!held.some(({ until }) => until == null || until >= at.end))
        say('skill-expired', `${name(skill)} of ${name(id)} runs out before it is over.`);
    }
  });
  const kinds = at.tools.map((id) => problem.tools?.find((tool) => tool.id === id)?.kind);
  at.tools.forEach((id, k) => {
    if (kinds[k] === undefined) say('tool-unknown', `There is no ${name(id)}.`);
  });
  const wanted = [...(operation.tools ?? [])].sort().join('\n');
  if ([...kinds].sort().join('\n') !== wanted || new Set(at.tools).size !== at.tools.length)
    say('tools-wrong', 'The tools are not those that it needs.');
  for (const id of at.tools)
    for (const [from, to] of problem.tools?.find((tool) => tool.id === id)?.outOfService ?? [])
      if (from < at.end && at.start < to) say('tool-closed', `${name(id)} is out of service.`);
  return broken;
}
