import type { Fault } from '#libs/kernel';
import { addMonths } from './add-months.js';
import type { FloorBay, FloorLift, FloorNeeds, FloorVehicle } from './needs.js';

export type BayFaultCode =
  | 'bay-out-of-service'
  | 'bay-without-lift'
  | 'bay-kind-not-suitable'
  | 'vehicle-too-high'
  | 'lift-kind-unsuitable'
  | 'lift-capacity-exceeded'
  | 'vehicle-weight-unknown'
  | 'lift-inspection-overdue';

/** Months between two inspections of a lift by a qualified inspector: at least yearly (ANSI/ALI ALOIM). */
export const LIFT_INSPECTION_MONTHS = 12;

/** The last day on which a lift may be used: twelve months after its inspection; null without one on record. */
export function liftGoodThrough(inspectedOn: string | null): string | null {
  return inspectedOn === null ? null : addMonths(inspectedOn, LIFT_INSPECTION_MONTHS);
}

/** A lift is good through the day twelve months after its last inspection; without one on record it is not used. */
export function isLiftInspectionOverdue(inspectedOn: string | null, onDay: string): boolean {
  const last = liftGoodThrough(inspectedOn);
  return last === null || onDay > last;
}

function liftFaults(
  bay: FloorBay,
  lift: FloorLift,
  liftKind: string | null,
  weightKg: number | null,
  lastDay: string,
): Fault<BayFaultCode>[] {
  const faults: Fault<BayFaultCode>[] = [];
  if (liftKind !== null && lift.kind !== liftKind) {
    const detail = `${bay.name} has a ${lift.kind} lift; this work needs a ${liftKind} lift.`;
    faults.push({ code: 'lift-kind-unsuitable', detail });
  }
  if (weightKg === null) {
    const detail =
      'The weight of the vehicle is not recorded. Read it from its plate before it goes on a lift.';
    faults.push({ code: 'vehicle-weight-unknown', detail });
  } else if (weightKg > lift.capacityKg) {
    faults.push({
      code: 'lift-capacity-exceeded',
      detail: `The vehicle weighs ${weightKg} kg; the lift of ${bay.name} is rated for ${lift.capacityKg} kg.`,
      facts: { weightKg, capacityKg: lift.capacityKg },
    });
  }
  if (isLiftInspectionOverdue(lift.inspectedOn, lastDay)) {
    const since =
      lift.inspectedOn === null ? 'has no inspection on record' : `was last inspected on ${lift.inspectedOn}`;
    faults.push({
      code: 'lift-inspection-overdue',
      detail: `The lift of ${bay.name} ${since}; it must be inspected every ${LIFT_INSPECTION_MONTHS} months.`,
      facts: { inspectedOn: lift.inspectedOn },
    });
  }
  return faults;
}

/** What the place itself rules out, lift or no lift. */
function placeFaults(
  bayKinds: readonly string[],
  heightMm: number | null,
  bay: FloorBay,
): Fault<BayFaultCode>[] {
  const faults: Fault<BayFaultCode>[] = [];
  if (bayKinds.length > 0 && bay.kind !== undefined && !bayKinds.includes(bay.kind)) {
    const detail = `${bay.name} is a ${bay.kind} bay; this work is done in a ${bayKinds.join(' or ')} bay.`;
    faults.push({ code: 'bay-kind-not-suitable', detail, facts: { bayKinds } });
  }
  const maxHeightMm = bay.maxHeightMm ?? null;
  if (maxHeightMm !== null && heightMm !== null && heightMm > maxHeightMm) {
    const detail = `The vehicle is ${heightMm} mm high; ${bay.name} takes up to ${maxHeightMm} mm.`;
    faults.push({ code: 'vehicle-too-high', detail, facts: { heightMm, maxHeightMm } });
  }
  return faults;
}

/**
 * Why this bay cannot take this vehicle for this work through `lastDay` (ISO date in the shop's zone); empty when it
 * can. A car is never put on a lift below its weight, on one of unknown weight for it, nor on one overdue for
 * inspection; the limits of arms, axles and adapters remain the operator's and the lift maker's.
 */
export function bayFaults(
  needs: Pick<FloorNeeds, 'lift' | 'liftKind' | 'bayKinds'>,
  vehicle: FloorVehicle,
  bay: FloorBay,
  lastDay: string,
): Fault<BayFaultCode>[] {
  const faults: Fault<BayFaultCode>[] = [];
  if (!bay.inService) faults.push({ code: 'bay-out-of-service', detail: `${bay.name} is out of service.` });
  faults.push(...placeFaults(needs.bayKinds ?? [], vehicle.heightMm ?? null, bay));
  if (!needs.lift) return faults;
  if (bay.lift === null) {
    faults.push({ code: 'bay-without-lift', detail: `This work needs a lift and ${bay.name} has none.` });
    return faults;
  }
  return [...faults, ...liftFaults(bay, bay.lift, needs.liftKind, vehicle.weightKg, lastDay)];
}
