import type { BookHundredths, Ppm } from '#libs/kernel';
import { formatDecimal } from '#libs/money';

/** Hours for a rule: "1.60 h". */
export function hoursText(hundredths: BookHundredths): string {
  return `${formatDecimal({ units: BigInt(hundredths), scale: 2 })} h`;
}

/** A rate for a rule, without idle zeros: "6.5 %". */
export function percentText(rate: Ppm): string {
  return `${formatDecimal({ units: BigInt(rate), scale: 4 }).replace(/\.?0+$/, '')} %`;
}

/** A quantity for a rule, without idle zeros: "4.5". */
export function quantityText(hundredths: number): string {
  return formatDecimal({ units: BigInt(hundredths), scale: 2 }).replace(/\.?0+$/, '');
}

/** A multiplier for a rule, without idle zeros: "2.2". */
export function timesText(multiplier: Ppm): string {
  return formatDecimal({ units: BigInt(multiplier), scale: 6 }).replace(/\.?0+$/, '');
}
