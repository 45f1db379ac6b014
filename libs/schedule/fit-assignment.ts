import type { Fault } from '#libs/kernel';
import { bayFaults } from './bay-faults.js';
import type { BayFaultCode } from './bay-faults.js';
import type { FloorBay, FloorNeeds, FloorTechnician, FloorTool, FloorVehicle } from './needs.js';
import { technicianFaults } from './technician-faults.js';

export interface AssignmentPeriod {
  /** Half-open: [startsAt, endsAt). */
  readonly startsAt: Date;
  readonly endsAt: Date;
  /** The day in the shop's zone on which the period ends, as an ISO date: certificates and inspections must last to it. */
  readonly lastDay: string;
}

export interface AssignmentToFit {
  readonly needs: FloorNeeds;
  readonly vehicle: FloorVehicle;
  readonly bay: FloorBay;
  readonly technician: FloorTechnician;
  /** The single tools that are assigned with it. */
  readonly tools: readonly FloorTool[];
  readonly period: AssignmentPeriod;
  /** The technician's shifts that touch the period, breaks taken out; leave out when they are not known. */
  readonly shifts?: readonly { readonly startsAt: Date; readonly endsAt: Date }[];
}

export type AssignmentFaultCode =
  BayFaultCode | 'technician-not-qualified' | 'period-reversed' | 'tool-missing' | 'tool-out-of-service';

export interface AssignmentFit {
  /** Any of these forbids the assignment. */
  readonly faults: readonly Fault<AssignmentFaultCode>[];
  /** These are said and may be accepted. */
  readonly warnings: readonly Fault<'outside-shift'>[];
}

function toolFaults(needed: readonly string[], tools: readonly FloorTool[]): Fault<AssignmentFaultCode>[] {
  const missing = needed
    .filter((kind) => !tools.some((tool) => tool.tool === kind))
    .map((kind) => ({
      code: 'tool-missing' as const,
      detail: `This work needs the special tool "${kind}".`,
    }));
  const broken = tools
    .filter((tool) => !tool.inService)
    .map((tool) => ({ code: 'tool-out-of-service' as const, detail: `${tool.name} is out of service.` }));
  return [...missing, ...broken];
}

/** Whether [start, end) lies wholly inside the union of the shifts. */
function isCovered(start: number, end: number, shifts: NonNullable<AssignmentToFit['shifts']>): boolean {
  const ordered = shifts.map((shift) => [shift.startsAt.getTime(), shift.endsAt.getTime()] as const);
  let reached = start;
  for (const [from, to] of ordered.sort((left, right) => left[0] - right[0])) {
    if (from <= reached && to > reached) reached = to;
  }
  return reached >= end;
}

/**
 * Every reason why a work order cannot be done in this bay by this person with these tools in this period. That
 * nothing else is booked at the time is the database's to say (exclusion constraints), not this function's.
 */
export function fitAssignment(wanted: AssignmentToFit): AssignmentFit {
  const { needs, vehicle, bay, technician, tools, period, shifts } = wanted;
  const [start, end] = [period.startsAt.getTime(), period.endsAt.getTime()];
  const faults: Fault<AssignmentFaultCode>[] = [
    ...bayFaults(needs, vehicle, bay, period.lastDay),
    ...technicianFaults(needs.skills, technician, period.lastDay),
    ...toolFaults(needs.tools, tools),
  ];
  const isForward = start < end;
  if (!isForward)
    faults.unshift({ code: 'period-reversed', detail: 'The end must be later than the start.' });
  const warnings: Fault<'outside-shift'>[] = [];
  if (isForward && shifts !== undefined && !isCovered(start, end, shifts)) {
    warnings.push({
      code: 'outside-shift',
      detail: `Part of this is outside the shifts of ${technician.name}.`,
    });
  }
  return { faults, warnings };
}
