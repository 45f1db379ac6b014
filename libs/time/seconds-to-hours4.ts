import type { Seconds } from '#libs/kernel';
import { divideHalfUp, formatDecimal } from '#libs/money';

/** Clocked seconds as hours to four digits, half up on the absolute value: 36 s are "0.0100", 1 s is "0.0003". */
export function secondsToHours4(time: Seconds): string {
  return formatDecimal({ units: divideHalfUp(BigInt(time) * 10_000n, 3600n), scale: 4 });
}
