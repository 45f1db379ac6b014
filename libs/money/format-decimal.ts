import type { Decimal } from './decimal.js';

/** The plain text of a decimal with all its digits after the point: { units: -5n, scale: 2 } is "-0.05". */
export function formatDecimal({ units, scale }: Decimal): string {
  const digits = (units < 0n ? -units : units).toString().padStart(scale + 1, '0');
  const point = digits.length - scale;
  const text = scale === 0 ? digits : `${digits.slice(0, point)}.${digits.slice(point)}`;
  return units < 0n ? `-${text}` : text;
}
