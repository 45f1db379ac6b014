import type { Cents } from '#libs/kernel';
import { decimalFromCents } from './decimal-from-cents.js';
import { formatDecimal } from './format-decimal.js';

/**
 * An amount for people: "1,234.50", or with a currency code "USD 1,234.50". Two digits after the point, the minor units
 * that ISO 4217 gives to the currencies that are counted in cents; the sign stands before the digits. The same on every
 * machine, whatever its locale.
 */
export function formatCents(amount: Cents, currency?: string): string {
  const [whole = '0', fraction = '00'] = formatDecimal(decimalFromCents(amount)).split('.');
  const text = `${whole.replace(/\B(?=(?:\d{3})+$)/g, ',')}.${fraction}`;
  return currency === undefined ? text : `${currency} ${text}`;
}
