import type { Cents } from '#libs/kernel';
import { divideHalfUp } from '#libs/money';
import type { Spread } from './spread.js';

/** Hours in hundredths as cents of labour at a rate, each of the three rounded half up. */
export function labourSpread(hundredths: Spread, rateCentsPerHour: Cents): Spread {
  return eachOf(hundredths, (hours) => divided(hours, rateCentsPerHour, 100));
}

/**
 * The spread of what a line carries of a choice: it shares steps with others, has a discount or is not charged, so its
 * amount is not the one its spread was entered for. Low and high keep their distance in proportion. Where nothing was
 * likely there is nothing to be in proportion to, and they stay as entered.
 */
export function carriedSpread(entered: Spread, carried: number): Spread {
  if (entered.likely === 0) return { low: carried, likely: carried, high: carried + entered.high };
  return {
    low: divided(entered.low, carried, entered.likely),
    likely: carried,
    high: divided(entered.high, carried, entered.likely),
  };
}

const divided = (value: number, times: number, by: number): number =>
  Number(divideHalfUp(BigInt(value) * BigInt(times), BigInt(by)));

function eachOf(spread: Spread, change: (value: number) => number): Spread {
  return { low: change(spread.low), likely: change(spread.likely), high: change(spread.high) };
}
