import type { BayNeed } from '#libs/plan';

/**
 * The kind of year that a shop has, as plain JSON: how often cars come and what work they bring. It says nothing of lifts
 * and people, so that every floor is given the same year.
 */
export interface YearDescription {
  readonly weeks: number;
  readonly arrivals: readonly ArrivalsOfDay[];
  /** Of a million cars, how many have an appointment, and how many days before they come it is made. */
  readonly booked?: { readonly sharePpm: number; readonly days: number };
  readonly kinds: readonly KindOfOrder[];
  /** What work takes against what was expected of it; exactly that when left out. */
  readonly overrun?: Overrun;
  readonly promise: PromiseRule;
  /** Vehicles, drawn evenly; of unknown weight and height when left out. */
  readonly vehicles?: readonly YearVehicle[];
  /** Days from the first Monday (0) on which nobody comes: holidays. */
  readonly closedDays?: readonly number[];
}

/** Cars come by chance between two times of a day of the week (1 is Monday), so many on average (in thousandths). */
export interface ArrivalsOfDay extends DayPeriod {
  readonly perDayThousandths: number;
}

/** Part of a day of the week in minutes since its midnight, `from` to before `to`. */
export interface DayPeriod {
  readonly weekday: number;
  readonly from: number;
  readonly to: number;
}

/** A repair order of a kind that this shop has often: the same operations, with hours that differ from car to car. */
export interface KindOfOrder {
  readonly name: string;
  /** How often it comes in proportion to the others. */
  readonly share: number;
  /** What a minute of lateness weighs; 1 when left out. */
  readonly weight?: number;
  /** Open days from coming to the promised time, where it is another than the rule says. */
  readonly promisedDays?: number;
  /** Its vehicle, where it is always the same. */
  readonly vehicle?: YearVehicle;
  readonly operations: readonly KindOfOperation[];
}

export interface YearVehicle {
  readonly weightKg: number;
  readonly heightMm?: number | null;
}

export interface KindOfOperation {
  /** One of its kind within the repair order. */
  readonly id: string;
  readonly hours: HoursSpread;
  readonly after?: readonly string[];
  readonly bay?: BayNeed | null;
  readonly skills?: readonly string[];
  readonly crew?: 1 | 2;
  readonly helperSkills?: readonly string[];
  /** Special tools by kind. */
  readonly tools?: readonly string[];
  readonly teardown?: string | null;
  /** Of a million, how many wait for parts, and for how long after the car has come (evenly between the two). */
  readonly parts?: { readonly sharePpm: number; readonly leastMinutes: number; readonly mostMinutes: number };
}

/** Expected minutes: the mean and, unless they are fixed, how far cars differ. */
export interface HoursSpread {
  readonly minutes: number;
  readonly shape?: 'fixed' | 'lognormal' | 'exponential';
  /** Standard deviation of the logarithm, in millionths; of `lognormal` only. */
  readonly spreadPpm?: number;
}

/** Actual over expected, drawn for each operation; nobody knows it before the work is over. */
export interface Overrun {
  readonly meanPpm: number;
  readonly shape?: 'fixed' | 'lognormal' | 'exponential';
  readonly spreadPpm?: number;
}

/**
 * A car is promised for a time of day, as many open days after its own as its expected hours need at so many minutes of
 * work a day. Open days are those on which cars come.
 */
export interface PromiseRule {
  readonly leastDays: number;
  readonly minutesPerDay: number;
  /** Minutes since midnight. */
  readonly timeOfDay: number;
}

/** What happened in a year, known in full; a replay tells its planner only what a shop would know at each moment. */
export interface Year {
  readonly weeks: number;
  readonly closedDays: readonly number[];
  readonly orders: readonly YearOrder[];
}

export interface YearOrder {
  readonly id: string;
  /** Minutes from the first Monday's midnight, as all times here. */
  readonly arrives: number;
  /** From when on the shop knows that it will come. */
  readonly known: number;
  readonly promised: number;
  readonly weight: number;
  readonly vehicle: { readonly weightKg: number | null; readonly heightMm: number | null };
  readonly operations: readonly YearOperation[];
}

export interface YearOperation extends Omit<KindOfOperation, 'hours' | 'parts'> {
  /** One of its kind in the year. */
  readonly id: string;
  readonly minutes: number;
  readonly actualMinutes: number;
  readonly partsAt: number | null;
}
