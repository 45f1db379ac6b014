import { technicianFaults } from '#libs/schedule';
import { bayHold } from './bay-hold.js';
import type {
  Hold,
  HoldFacts,
  HoldKind,
  PartSituation,
  SubletSituation,
  ToolSituation,
} from './hold-facts.js';

const hold = (kind: HoldKind, detail: string, until: string | null = null): Hold =>
  until === null ? { kind, detail } : { kind, detail, until };

const quantity = (hundredths: number): string => String(hundredths / 100);

const overdueWords = (what: string, whom: 'supplier' | 'firm'): string =>
  `${what} Ask the ${whom} and enter a new date.`;

function partHold(part: PartSituation): Hold[] {
  const short = part.neededHundredths - part.receivedHundredths;
  if (short <= 0) return [];
  const count = `${quantity(short)} of ${quantity(part.neededHundredths)}`;
  const { name, expectedAt, isOverdue = false } = part;
  const when = expectedAt === null ? 'no date known' : `expected ${expectedAt}`;
  // A time that has passed tells nobody when it will be gone.
  return isOverdue
    ? [hold('parts', overdueWords(`Part overdue since ${expectedAt}: ${count} × ${name}.`, 'supplier'))]
    : [hold('parts', `Waiting for ${count} × ${name}, ${when}.`, expectedAt)];
}

function technicianHold({ needs, technicians, today }: HoldFacts): Hold[] {
  const able = technicians.filter((person) => technicianFaults(needs.skills, person, today).length === 0);
  if (able.some(({ awayUntil }) => awayUntil == null)) return [];
  const skills = needs.skills.map((skill) => `"${skill}"`).join(' and ');
  if (able.length > 0) {
    const [until = null] = able.flatMap(({ awayUntil }) => awayUntil ?? []).sort();
    const who = skills === '' ? 'Every technician' : `Everybody who holds ${skills}`;
    const names = able.map(({ name }) => name).join(', ');
    return [hold('technician', `${who} is away (${names}); the first is back at ${until}.`, until)];
  }
  return [
    hold(
      'technician',
      needs.skills.length === 0
        ? 'No technician is active.'
        : `No active technician holds ${skills} with a current certificate.`,
    ),
  ];
}

function toolHold(kind: string, situations: readonly ToolSituation[]): Hold[] {
  const tool = situations.find((candidate) => candidate.tool === kind);
  if (tool === undefined || tool.units <= 0) return [hold('tool', `The shop has no "${kind}" in service.`)];
  if (tool.unitsInUse < tool.units) return [];
  const all = tool.units === 1 ? `The only "${kind}" is in use` : `All ${tool.units} of "${kind}" are in use`;
  return [hold('tool', tool.freeAt === null ? `${all}.` : `${all} until ${tool.freeAt}.`, tool.freeAt)];
}

function subletHold({ title, returned, dueAt, isOverdue = false }: SubletSituation): Hold[] {
  if (returned) return [];
  if (isOverdue)
    return [hold('sublet', overdueWords(`${title}, at another firm, overdue since ${dueAt}.`, 'firm'))];
  const when = dueAt === null ? 'no date known' : `due ${dueAt}`;
  return [hold('sublet', `${title} is still with the other firm, ${when}.`, dueAt)];
}

/**
 * Why a work order cannot start now: one entry for each thing that is missing, in the order in which a shop would
 * clear them. Empty means that it can start. Times are passed in as they are to be shown; ISO times sort correctly.
 */
export function holdsOf(facts: HoldFacts): Hold[] {
  const bay = bayHold(facts);
  return [
    ...(facts.approved ? [] : [hold('decision', 'The owner has not approved this line.')]),
    ...facts.parts.flatMap(partHold),
    ...(bay === null ? [] : [bay]),
    ...technicianHold(facts),
    ...facts.needs.tools.flatMap((kind) => toolHold(kind, facts.tools)),
    ...facts.earlier
      .filter((other) => !other.finished)
      .map((other) => hold('earlier-work-order', `"${other.title}" must be finished first.`)),
    ...facts.sublets.flatMap(subletHold),
  ];
}
