import type { WhatIfDifference, WhatIfFigure } from '../api/what-if-types.js';

/** How one of the four figures on the page is told. */
export interface Told {
  readonly figure: WhatIfFigure['figure'];
  readonly title: string;
  readonly unit: string;
  readonly more: string;
  readonly less: string;
}

/** What a manager asks about, most important first. */
export const TOLD: readonly Told[] = [
  {
    figure: 'lateHoursPerWeek',
    title: 'Late',
    unit: 'hours past promises a week',
    more: 'more hours late',
    less: 'fewer hours late',
  },
  {
    figure: 'keptPercent',
    title: 'Promises kept',
    unit: 'of 100',
    more: 'more of 100 kept',
    less: 'fewer of 100 kept',
  },
  { figure: 'readyPerWeek', title: 'Cars ready', unit: 'a week', more: 'more cars', less: 'fewer cars' },
  {
    figure: 'liftIdleHoursPerWeek',
    title: 'Lifts idle',
    unit: 'hours a week, all lifts',
    more: 'more hours idle',
    less: 'fewer hours idle',
  },
];

export const figureOf = <F extends { readonly figure: string }>(
  figures: readonly F[],
  figure: string,
): F | undefined => figures.find((one) => one.figure === figure);

/** One decimal is as much as a replay of weeks can carry. */
export const number = (hundredths: number): string =>
  (hundredths / 100).toLocaleString('en', { maximumFractionDigits: 1, minimumFractionDigits: 0 });

/** Whether the interval leaves no doubt on which side of nothing the difference lies. */
export const isSure = ({ low, high }: WhatIfDifference): boolean =>
  low !== null && high !== null && (low > 0 || high < 0);

/** The difference as a sentence would say it. */
export function differenceWords(difference: WhatIfDifference, { more, less }: Told): string {
  const { hundredths, low, high } = difference;
  if (hundredths === 0 && low === 0 && high === 0) return 'The same';
  if (!isSure(difference)) return 'No sure difference';
  const size = number(Math.abs(hundredths));
  return `${size} ${hundredths > 0 ? more : less}`;
}

/** Between which values it lies. */
export function intervalWords({ low, high }: WhatIfDifference): string {
  if (low === null || high === null) return '';
  const signed = (value: number): string =>
    `${value > 0 ? '+' : value < 0 ? '−' : ''}${number(Math.abs(value))}`;
  return `${signed(low)} to ${signed(high)}`;
}
