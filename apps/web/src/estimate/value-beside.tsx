import type { Money } from './money.js';
import { ratioWords } from './ratio.js';

interface ValueProps {
  readonly value: number;
  readonly total: number;
  readonly money: Money;
}

/** The value that the shop entered for the vehicle, and the total laid against it. It says the ratio and no more. */
export function ValueBeside({ value, total, money }: ValueProps) {
  const longest = Math.max(value, total, 1);
  const share = (cents: number): string => `${(Math.max(0, cents) / longest) * 100}%`;
  return (
    <section className="beside" aria-label="Beside the value of the vehicle">
      <div className="beside-rule" aria-hidden="true">
        <i className="worth" style={{ width: share(value) }} />
        <i className="work" style={{ width: share(Math.min(total, value)) }} />
        {total > value && <i className="past" style={{ left: share(value), width: share(total - value) }} />}
      </div>
      <p>
        <b>{value > 0 ? ratioWords(Math.round((total / value) * 1_000_000)) : 'All'}</b> of the value entered
        for the vehicle, <span className="num">{money.full(value)}</span>
      </p>
    </section>
  );
}
