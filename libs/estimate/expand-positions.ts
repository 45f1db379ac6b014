import { fail, ok } from '#libs/kernel';
import type { BookHundredths, Fault, Result } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';
import { axlesOf, cornersOf, POSITIONS } from './position.js';
import type { Position } from './position.js';

/**
 * Where a step of an operation is done, seen from the position that the operation is ordered for:
 *
 * - `corner`: at every corner that the position covers. A wheel comes off at the front left for work there, and at
 *   both front corners for work on the front axle;
 * - `axle`: once for every axle that the position touches, however many of its corners are worked on;
 * - `vehicle`: once for the vehicle (bleeding the brakes, a road test);
 * - `chosen`: at the position as it was ordered, corner or axle or place.
 */
export const STEP_PLACES = ['corner', 'axle', 'vehicle', 'chosen'] as const;
export type StepPlace = (typeof STEP_PLACES)[number];

export interface CatalogueStep {
  readonly step: string;
  readonly at: StepPlace;
  readonly hundredths: BookHundredths;
}

export interface CatalogueOperation {
  readonly id: string;
  readonly steps: readonly CatalogueStep[];
}

export type PositionFault = Fault<'position-missing' | 'position-unfit' | 'step-listed-twice'>;

function placesOf(at: StepPlace, position: Position): Position[] {
  switch (at) {
    case 'corner':
      return cornersOf(position);
    case 'axle':
      return axlesOf(position);
    case 'vehicle':
      return ['vehicle'];
    case 'chosen':
      return [position];
  }
}

/**
 * The distinct (step, position) pairs of an operation that is ordered at these positions, in the order of the
 * operation's steps and then of `POSITIONS`. Two positions that need the same step at the same place need it once:
 * that is what makes both front corners cheaper together than one after the other.
 *
 * A position that has no place for a step is refused (`position-unfit`: a corner step on the engine), because leaving
 * the step out would sell the work too cheaply.
 */
export function expandPositions(
  operation: CatalogueOperation,
  positions: readonly Position[],
): Result<LabourStep[], PositionFault> {
  if (positions.length === 0)
    return fail('position-missing', `Say where on the vehicle "${operation.id}" is done.`);
  const seen = new Set<string>();
  const expanded: LabourStep[] = [];
  for (const { step, at, hundredths } of operation.steps) {
    if (seen.has(step)) {
      return fail('step-listed-twice', `Step "${step}" is listed twice in "${operation.id}": list it once.`);
    }
    seen.add(step);
    const places = new Set<Position>();
    for (const position of positions) {
      const found = placesOf(at, position);
      if (found.length === 0) {
        return fail(
          'position-unfit',
          `"${operation.id}" has a step per ${at} ("${step}"), and "${position}" has none.`,
        );
      }
      for (const place of found) places.add(place);
    }
    for (const position of POSITIONS) if (places.has(position)) expanded.push({ step, position, hundredths });
  }
  return ok(expanded);
}
