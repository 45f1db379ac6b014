import type { Api } from './api.js';

export interface StepTold {
  readonly who: string;
  readonly what: string;
  readonly figures?: Readonly<Record<string, string | number>>;
}

/** What the tour answers with `--json`: whole cents; hours as decimal numbers. */
export interface TourResult {
  readonly findings: number;
  readonly lines: number;
  readonly sentCents: number;
  readonly approvedCents: number;
  readonly workOrders: number;
  readonly holds: number;
  readonly bookHours: number;
  readonly clockedHours: number;
  readonly invoiceableCents: number;
  readonly steps: readonly StepTold[];
}

/** The people of the tour, and what they have in hand so far. */
export interface Cast {
  readonly base: string;
  readonly frontDesk: Api;
  readonly technician: Api;
  readonly secondTechnician: Api;
  readonly manager: Api;
  readonly owner: Api;
  /** One shop minute in wall milliseconds. */
  readonly minuteMs: number;
}

export type Tell = (who: string, what: string, figures?: StepTold['figures']) => void;

/** A check of the story; without it the tour would only be a list of requests. */
export function expectThat(holds: boolean, otherwise: string): void {
  if (!holds) throw new Error(`the story does not hold: ${otherwise}`);
}

export function expectEqual(actual: number, expected: number, what: string): void {
  expectThat(actual === expected, `${what}: ${actual} is not ${expected}`);
}

export const money = (cents: number): string =>
  new Intl.NumberFormat('en-US', { style: 'currency', currency: 'USD' }).format(cents / 100);

export const hours = (hundredths: number): string => `${(hundredths / 100).toFixed(2)} h`;

/** "4 h 05 min" for a person. */
export function clocked(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return minutes < 60
    ? `${minutes} min`
    : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}
