import type { WhatIfDifference } from '../api/what-if-types.js';

interface BarProps {
  readonly difference: WhatIfDifference;
  /** The largest value on either side of nothing that any bar of this figure shows. */
  readonly reach: number;
}

const WIDTH = 240;
const MIDDLE = WIDTH / 2;
const ROOM = MIDDLE - 8;

/**
 * Where the difference lies: the heavy line is the shop as it is, the bar the 95 % interval, its tick the mean. Ribbed
 * while the interval touches the line, filled when it does not. The words beside it say the same.
 */
export function IntervalBar({ difference: { low, hundredths, high }, reach }: BarProps) {
  const at = (value: number): number => MIDDLE + (reach === 0 ? 0 : (value / reach) * ROOM);
  const [from, to] = [at(low ?? hundredths), at(high ?? hundredths)];
  const touches = (low ?? 0) <= 0 && (high ?? 0) >= 0;
  return (
    <svg className="interval" viewBox={`0 0 ${WIDTH} 28`} aria-hidden="true" focusable="false">
      <line className="span" x1="0" x2={WIDTH} y1="14" y2="14" />
      <rect
        className={touches ? 'unsure' : 'sure'}
        x={from}
        y="7"
        width={Math.max(2, to - from)}
        height="14"
      />
      {touches &&
        Array.from({ length: Math.max(0, Math.floor((to - from) / 7)) }, (_, k) => (
          <line key={k} className="rib" x1={from + 4 + k * 7} x2={from + 4 + k * 7} y1="8" y2="20" />
        ))}
      <line className="as-it-is" x1={MIDDLE} x2={MIDDLE} y1="0" y2="28" />
      <line className="mean" x1={at(hundredths)} x2={at(hundredths)} y1="2" y2="26" />
    </svg>
  );
}
