import type {
  Period,
  PlanAssignment,
  PlanBay,
  PlanOperation,
  PlanProblem,
  PlanRepairOrder,
  PlanTechnician,
} from '#libs/plan';
import type { FieldReader } from './field-reader.js';

const LATEST = 50_000_000;
const time = { min: 0, max: LATEST };

/** A list that may be left out. */
const optional = <T>(read: FieldReader, field: string, one: (reader: FieldReader) => T): T[] =>
  read.has(field) ? read.objects(field, one) : [];

function periods(read: FieldReader, field: string): Period[] {
  return read.has(field) ? read.pairs(field, time) : [];
}

const readTechnician = (read: FieldReader): PlanTechnician => ({
  id: read.id('id'),
  works: read.pairs('works', time),
  engaged: periods(read, 'engaged'),
  skills: optional(read, 'skills', (skill) => ({
    skill: skill.id('skill'),
    until: skill.optionalWhole('until', time) ?? null,
  })),
});

function readBay(read: FieldReader): PlanBay {
  const lift = read.optionalObject('lift', (one) => ({
    kind: one.text('kind'),
    capacityKg: one.whole('capacityKg', { min: 0 }),
    until: one.optionalWhole('until', time) ?? null,
  }));
  return {
    id: read.id('id'),
    kind: read.has('kind') ? read.text('kind') : '',
    maxHeightMm: read.optionalWhole('maxHeightMm', { min: 0 }) ?? null,
    lift,
    outOfService: periods(read, 'outOfService'),
  };
}

const readPlace = (read: FieldReader): Omit<PlanAssignment, 'operation'> => ({
  start: read.whole('start', time),
  end: read.whole('end', time),
  bay: read.has('bay') ? read.id('bay') : null,
  technicians: read.texts('technicians'),
  tools: read.optionalTexts('tools'),
});

export const readAssignments = (read: FieldReader, field: string): PlanAssignment[] =>
  optional(read, field, (one) => ({ operation: one.id('operation'), ...readPlace(one) }));

function readOperation(read: FieldReader): PlanOperation {
  return {
    id: read.id('id'),
    minutes: read.whole('minutes', { min: 1, max: LATEST }),
    minutesBy: read.optionalObject('minutesBy', (one) => one.wholes({ min: 1, max: LATEST })) ?? {},
    minutesP80: read.optionalWhole('minutesP80', { min: 1, max: LATEST }),
    after: read.optionalTexts('after'),
    earliest: read.optionalWhole('earliest', time) ?? null,
    bay: read.optionalObject('bay', (one) => ({
      lift: one.optionalFlag('lift'),
      liftKind: one.has('liftKind') ? one.text('liftKind') : null,
      kinds: one.optionalTexts('kinds'),
    })),
    skills: read.optionalTexts('skills'),
    crew: read.optionalWhole('crew', { min: 1, max: 2 }) === 2 ? 2 : 1,
    helperSkills: read.optionalTexts('helperSkills'),
    tools: read.optionalTexts('tools'),
    teardown: read.has('teardown') ? read.id('teardown') : null,
    started: read.optionalObject('started', readPlace),
    pin: read.optionalObject('pin', (one) => ({
      start: one.optionalWhole('start', time) ?? null,
      bay: one.has('bay') ? one.id('bay') : null,
      technicians: one.has('technicians') ? one.texts('technicians') : null,
    })),
  };
}

const readOrder = (read: FieldReader): PlanRepairOrder => ({
  id: read.id('id'),
  promised: read.optionalWhole('promised', { min: -LATEST, max: LATEST }) ?? null,
  weight: read.optionalWhole('weight', { min: 0, max: 1000 }) ?? 1,
  arrives: read.optionalWhole('arrives', time) ?? null,
  vehicle:
    read.optionalObject('vehicle', (one) => ({
      weightKg: one.optionalWhole('weightKg', { min: 0 }) ?? null,
      heightMm: one.optionalWhole('heightMm', { min: 0 }) ?? null,
    })) ?? {},
  operations: read.objects('operations', readOperation),
});

const WEIGHTS = [
  'lateness',
  'startMoved',
  'hourMoved',
  'technicianChanged',
  'bayChanged',
  'nearMinutes',
] as const;

/** A problem in the format of `PlanProblem`; what contradicts itself in it is found by the lib. */
export function readPlanProblem(read: FieldReader): PlanProblem {
  return {
    now: read.whole('now', time),
    frozenUntil: read.optionalWhole('frozenUntil', time) ?? null,
    technicians: read.objects('technicians', readTechnician),
    bays: read.objects('bays', readBay),
    tools: optional(read, 'tools', (one) => ({
      id: one.id('id'),
      kind: one.id('kind'),
      outOfService: periods(one, 'outOfService'),
    })),
    repairOrders: read.objects('repairOrders', readOrder),
    previous: readAssignments(read, 'previous'),
    weights:
      read.optionalObject('weights', (one) =>
        Object.fromEntries(
          WEIGHTS.flatMap((name) => {
            const weight = one.optionalWhole(name, { min: 0, max: name === 'nearMinutes' ? LATEST : 1000 });
            return weight === undefined ? [] : [[name, weight]];
          }),
        ),
      ) ?? {},
  };
}
