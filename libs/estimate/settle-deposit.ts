import { cents } from '#libs/kernel';
import type { Cents, Ppm } from '#libs/kernel';
import { formatCents, portionOf } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import { percentText } from './plain-text.js';

/** What a shop asks for before it orders or begins: nothing, or a part of the total or of the parts that it cannot send back. */
export type DepositRule =
  { readonly of: 'nothing' } | { readonly of: 'total' | 'special-order'; readonly ratePpm: Ppm };

export interface DepositBase {
  /** What the owner agreed to pay, tax included. */
  readonly totalCents: Cents;
  /** What of it is for parts that are ordered for this vehicle only. */
  readonly specialOrderCents: Cents;
}

export interface Asked {
  readonly cents: Cents;
  readonly breakdown: Breakdown;
}

/** The deposit that a shop's rule asks for, half up; never more than the total, and nothing where nothing is to be paid. */
export function depositAsked({ totalCents, specialOrderCents }: DepositBase, rule: DepositRule): Asked {
  const explained = (amount: number, text: string, inputs: readonly Breakdown[]): Asked => ({
    cents: cents(amount),
    breakdown: { figure: 'deposit asked', cents: cents(amount), rule: text, inputs },
  });
  const total: Breakdown = { figure: 'total', cents: totalCents, rule: 'what was agreed to', inputs: [] };
  if (rule.of === 'nothing') return explained(0, 'this shop asks for no deposit', [total]);
  if (totalCents <= 0) return explained(0, 'nothing is to be paid', [total]);
  const special: Breakdown = {
    figure: 'special-order parts',
    cents: specialOrderCents,
    rule: 'parts that are ordered for this vehicle only',
    inputs: [],
  };
  const base = rule.of === 'total' ? totalCents : specialOrderCents;
  const rated = portionOf(base, rule.ratePpm);
  const words = `${percentText(rule.ratePpm)} of ${formatCents(base)}, rounded half up`;
  const inputs = rule.of === 'total' ? [total] : [special, total];
  return rated > totalCents
    ? explained(totalCents, `${words}, but never more than the total`, inputs)
    : explained(rated, words, inputs);
}
