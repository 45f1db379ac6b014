import { DateTime } from 'luxon';
import { cents } from '#libs/kernel';
import { decimalFromCents, formatDecimal } from '#libs/money';
import { LANGUAGE } from './words.js';

/** Amounts, hours and times as this shop's owners read them. */
export interface Formats {
  money(amount: number): string;
  /** Whole units only, for an amount that is about right. */
  roundMoney(amount: number): string;
  /** What stands before and after the figures of an amount, and between its two parts. */
  readonly moneyParts: { readonly before: string; readonly point: string; readonly after: string };
  hours(hundredths: number): string;
  moment(at: Date | string): string;
  day(day: string): string;
  whole(value: number): string;
}

export function formatsFor(currency: string, zone: string): Formats {
  const amounts = new Intl.NumberFormat(LANGUAGE, {
    style: 'currency',
    currency,
    minimumFractionDigits: 2,
    maximumFractionDigits: 2,
  });
  const rounded = new Intl.NumberFormat(LANGUAGE, { style: 'currency', currency, maximumFractionDigits: 0 });
  const wholes = new Intl.NumberFormat(LANGUAGE);
  const parts = amounts.formatToParts(0);
  const figure = parts.findIndex(({ type }) => type === 'integer');
  const last = parts.findIndex(({ type }) => type === 'fraction');
  const text = (from: number, to?: number): string =>
    parts
      .slice(from, to)
      .map(({ value }) => value)
      .join('');
  return {
    // As an exact decimal text: no amount is ever a fraction in binary.
    money: (amount) => amounts.format(formatDecimal(decimalFromCents(cents(amount))) as `${number}`),
    roundMoney: (amount) => rounded.format(formatDecimal(decimalFromCents(cents(amount))) as `${number}`),
    moneyParts: {
      before: text(0, figure),
      point: parts.find(({ type }) => type === 'decimal')?.value ?? '.',
      after: text(last + 1),
    },
    hours: (hundredths) => formatDecimal({ units: BigInt(hundredths), scale: 2 }),
    moment: (at) =>
      (typeof at === 'string' ? DateTime.fromISO(at) : DateTime.fromJSDate(at))
        .setZone(zone)
        .setLocale(LANGUAGE)
        .toLocaleString({
          weekday: 'long',
          day: 'numeric',
          month: 'long',
          hour: 'numeric',
          minute: '2-digit',
        }),
    day: (day) =>
      DateTime.fromISO(day, { zone })
        .setLocale(LANGUAGE)
        .toLocaleString({ day: 'numeric', month: 'long', year: 'numeric' }),
    whole: (value) => wholes.format(value),
  };
}
