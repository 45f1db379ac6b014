import type {
  Alternative,
  DayPeriod,
  FloorChange,
  HoursSpread,
  KindOfOperation,
  WhatIfFloor,
  YearDescription,
  YearVehicle,
} from '#libs/what-if';
import type { FieldReader } from './field-reader.js';

const MILLION = 1_000_000;
const SHAPES = ['fixed', 'lognormal', 'exponential'] as const;

const readPeriod = (read: FieldReader): DayPeriod => ({
  weekday: read.whole('weekday', { min: 1, max: 7 }),
  from: read.whole('from', { min: 0, max: 1440 }),
  to: read.whole('to', { min: 0, max: 1440 }),
});

const readShape = (read: FieldReader): Pick<HoursSpread, 'shape' | 'spreadPpm'> => ({
  shape: read.oneOf('shape', SHAPES, 'fixed'),
  spreadPpm: read.optionalWhole('spreadPpm', { min: 0, max: 2 * MILLION }),
});

/** A floor as in `WhatIfFloor`. */
export const readFloor = (read: FieldReader): WhatIfFloor => ({
  opening: read.objects('opening', readPeriod),
  technicians: read.objects('technicians', (one) => ({
    id: one.id('id'),
    hours: one.objects('hours', readPeriod),
    skills: one.optionalTexts('skills'),
    away: one.has('away') ? one.pairs('away', { min: -6_000_000, max: 6_000_000 }) : [],
  })),
  bays: read.objects('bays', (one) => ({
    id: one.id('id'),
    kind: one.has('kind') ? one.text('kind') : '',
    maxHeightMm: one.optionalWhole('maxHeightMm', { min: 0 }) ?? null,
    lift: one.optionalObject('lift', (lift) => ({
      kind: lift.text('kind'),
      capacityKg: lift.whole('capacityKg', { min: 0 }),
    })),
  })),
  tools: read.optionalObjects('tools', (one) => ({ id: one.id('id'), kind: one.id('kind') })),
});

const readOperation = (read: FieldReader): KindOfOperation => ({
  id: read.id('id'),
  hours: read.object('hours', (one) => ({ minutes: one.whole('minutes', { min: 1 }), ...readShape(one) })),
  after: read.optionalTexts('after'),
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
  parts:
    read.optionalObject('parts', (one) => ({
      sharePpm: one.whole('sharePpm', { min: 0, max: MILLION }),
      leastMinutes: one.whole('leastMinutes', { min: 0 }),
      mostMinutes: one.whole('mostMinutes', { min: 0 }),
    })) ?? undefined,
});

const readVehicle = (read: FieldReader): YearVehicle => ({
  weightKg: read.whole('weightKg', { min: 1 }),
  heightMm: read.optionalWhole('heightMm', { min: 1 }) ?? null,
});

/** A year as in `YearDescription`; what contradicts itself in it is found by the lib. */
export const readYear = (read: FieldReader): YearDescription => ({
  weeks: read.whole('weeks', { min: 1, max: 520 }),
  arrivals: read.objects('arrivals', (one) => ({
    ...readPeriod(one),
    perDayThousandths: one.whole('perDayThousandths', { min: 0 }),
  })),
  booked:
    read.optionalObject('booked', (one) => ({
      sharePpm: one.whole('sharePpm', { min: 0, max: MILLION }),
      days: one.whole('days', { min: 0 }),
    })) ?? undefined,
  kinds: read.objects('kinds', (one) => ({
    name: one.text('name'),
    share: one.whole('share', { min: 0 }),
    weight: one.optionalWhole('weight', { min: 0, max: 1000 }),
    promisedDays: one.optionalWhole('promisedDays', { min: 0 }),
    vehicle: one.optionalObject('vehicle', readVehicle) ?? undefined,
    operations: one.objects('operations', readOperation),
  })),
  overrun:
    read.optionalObject('overrun', (one) => ({
      meanPpm: one.whole('meanPpm', { min: 1 }),
      ...readShape(one),
    })) ?? undefined,
  promise: read.object('promise', (one) => ({
    leastDays: one.whole('leastDays', { min: 0 }),
    minutesPerDay: one.whole('minutesPerDay', { min: 1 }),
    timeOfDay: one.whole('timeOfDay', { min: 0, max: 1440 }),
  })),
  vehicles: read.optionalObjects('vehicles', readVehicle),
  closedDays: read.has('closedDays') ? read.wholesIn('closedDays', { min: 0 }) : [],
});

const CHANGES = ['bay', 'bay-away', 'technician', 'technician-away', 'day-open', 'tool'] as const;

function readChange(read: FieldReader): FloorChange {
  const kind = read.oneOf('kind', CHANGES);
  switch (kind) {
    case 'bay':
    case 'technician':
      return { kind, like: read.id('like') };
    case 'bay-away':
      return { kind, bay: read.id('bay') };
    case 'technician-away':
      return { kind, technician: read.id('technician') };
    case 'tool':
      return { kind, tool: read.id('tool') };
    case 'day-open':
      return {
        ...{ kind, ...readPeriod(read) },
        technicians: read.has('technicians') ? read.texts('technicians') : undefined,
      };
  }
}

export const readAlternative = (read: FieldReader): Alternative => ({
  name: read.id('name'),
  changes: read.objects('changes', readChange),
});
