import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { Breakdown } from './breakdown.js';
import { SUM } from './breakdown.js';

/** Money that moved: a deposit, a payment, a credit. */
export interface Paid {
  /** Which one: a receipt's number, a day, what was given back. */
  readonly of: string;
  /** From zero up. */
  readonly cents: Cents;
}

export interface Account {
  /** What the owner agreed to pay, tax included. */
  readonly totalCents: Cents;
  readonly deposits: readonly Paid[];
  readonly payments: readonly Paid[];
  /** What was taken off the total since: returned cores, lines given back. */
  readonly credits: readonly Paid[];
}

export interface Settlement {
  /** Still to be paid; zero when it is settled or too much was paid. */
  readonly dueCents: Cents;
  /** To be paid back to the owner; zero unless too much was paid. */
  readonly payBackCents: Cents;
  /** Total less all that was paid and credited: what is due, or below zero what is to be paid back. */
  readonly breakdown: Breakdown;
}

const less = (figure: string, moved: readonly Paid[]): Breakdown => ({
  figure,
  cents: cents(0 - moved.reduce((sum, one) => sum + one.cents, 0)),
  rule: SUM,
  inputs: moved.map((one) => ({
    figure,
    of: one.of,
    cents: cents(0 - one.cents),
    rule: 'as received',
    inputs: [],
  })),
});

/**
 * How an account stands: the total less deposits, payments and credits.
 *
 * @throws RangeError for an amount below zero; money that goes back is a credit or is paid back, never a negative payment.
 */
export function settle({ totalCents, deposits, payments, credits }: Account): Settlement {
  if ([...deposits, ...payments, ...credits].some((one) => one.cents < 0)) {
    throw new RangeError('settle: an amount is below zero');
  }
  const inputs: Breakdown[] = [
    { figure: 'total', cents: totalCents, rule: 'what was agreed to', inputs: [] },
    less('deposits', deposits),
    less('payments', payments),
    less('credits', credits),
  ];
  const left = inputs.reduce((sum, input) => sum + ('cents' in input ? input.cents : 0), 0);
  return {
    dueCents: cents(Math.max(0, left)),
    payBackCents: cents(Math.max(0, 0 - left)),
    breakdown: { figure: left < 0 ? 'to be paid back' : 'due', cents: cents(left), rule: SUM, inputs },
  };
}
