/** How amounts and hours are written on this page: the shop's currency, no locale of the machine. */
export interface Money {
  /** `€1,240.00` */
  readonly full: (cents: number) => string;
  /** `€1,240`, for axes. */
  readonly short: (cents: number) => string;
  /** `€`, `kr` */
  readonly sign: string;
}

const made = new Map<string, Money>();

export function moneyOf(currency: string): Money {
  const known = made.get(currency);
  if (known) return known;
  const style = { style: 'currency', currency, currencyDisplay: 'narrowSymbol' } as const;
  const full = new Intl.NumberFormat('en-GB', style);
  const short = new Intl.NumberFormat('en-GB', { ...style, maximumFractionDigits: 0 });
  const money: Money = {
    full: (cents) => full.format(cents / 100),
    short: (cents) => short.format(cents / 100),
    sign: short.formatToParts(0).find((part) => part.type === 'currency')?.value ?? currency,
  };
  made.set(currency, money);
  return money;
}

/** `1.60 h` */
export const hoursOf = (hundredths: number): string => `${(hundredths / 100).toFixed(2)} h`;

/**
 * What a person at the phone types for an amount, in cents; null when it is none. "1500", "1,500", "1 500.50" and
 * "1500,50" are read; a comma with three digits after it groups thousands, with one or two it is the point.
 */
export function readAmount(text: string): number | null {
  const plain = text.replace(/[^\d.,-]/g, '').replace(/,(?=\d{3}(\D|$))/g, '');
  const match = /^(\d{1,9})(?:[.,](\d{1,2})?)?$/.exec(plain);
  if (!match) return null;
  return Number(match[1]) * 100 + Number((match[2] ?? '').padEnd(2, '0'));
}
