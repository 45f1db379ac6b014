import type { Range } from '../api/estimate-types.js';
import type { Money } from './money.js';
import { ratioWords } from './ratio.js';
import { niceTicks } from './ticks.js';

interface RangeProps {
  readonly range: Range;
  readonly total: number | undefined;
  readonly behind: boolean;
  readonly money: Money;
}

/**
 * The range as a length of the rule: plain where four of five such jobs end, ribbed beyond; the pen stroke is the
 * price as it is offered. The words below say the same.
 */
export function RangeRule({ range, total, behind, money }: RangeProps) {
  const { p10Cents: p10, p50Cents: p50, p80Cents: p80, p95Cents: p95 } = range;
  if (p95 <= p10) {
    return (
      <p className="notice">
        Nothing in it varies: <span className="num">{money.full(p50)}</span>.
      </p>
    );
  }
  const points = [p10, p95, ...(total === undefined ? [] : [total])];
  const ticks = niceTicks(Math.min(...points), Math.max(...points), 4);
  const [from = 0, to = 1] = [ticks[0], ticks.at(-1)];
  const at = (cents: number): string => `${((cents - from) / (to - from)) * 100}%`;
  const length = (a: number, b: number): string => `${((b - a) / (to - from)) * 100}%`;
  return (
    <div className={behind ? 'behind' : undefined}>
      <div className="range-rule" aria-hidden="true">
        {ticks.map((tick) => (
          <span key={tick} className="range-tick num" style={{ left: at(tick) }}>
            {money.short(tick)}
          </span>
        ))}
        <i className="likely" style={{ left: at(p10), width: length(p10, p80) }} />
        <i className="beyond" style={{ left: at(p80), width: length(p80, p95) }} />
        <i className="middle" style={{ left: at(p50) }} />
        {total !== undefined && <i className="offered" style={{ left: at(total) }} />}
      </div>
      <dl className="range-words">
        <Below name="1 in 10 such jobs ends below" cents={p10} money={money} />
        <Below name="Half end below" cents={p50} money={money} main />
        <Below name="8 in 10 end below" cents={p80} money={money} main />
        <Below name="19 in 20 end below" cents={p95} money={money} />
      </dl>
      <Movers range={range} />
    </div>
  );
}

interface BelowProps {
  readonly name: string;
  readonly cents: number;
  readonly money: Money;
  readonly main?: boolean;
}

function Below({ name, cents, money, main = false }: BelowProps) {
  return (
    <div className={main ? 'main' : undefined}>
      <dt>{name}</dt>
      <dd className="num">{money.full(cents)}</dd>
    </div>
  );
}

const MOST = 3;

function Movers({ range }: { readonly range: Range }) {
  const movers = [...range.shares]
    .sort((a, b) => b.sharePpm - a.sharePpm)
    .filter((one) => one.sharePpm >= 10_000);
  if (movers.length === 0) return null;
  return (
    <>
      <h3>What moves it most</h3>
      <ol className="movers">
        {movers.slice(0, MOST).map((one) => (
          <li key={`${one.kind} ${one.id ?? one.words}`}>
            <span>{one.words}</span>
            <span className="num">{ratioWords(one.sharePpm)}</span>
            <i aria-hidden="true" style={{ width: `${one.sharePpm / 10_000}%` }} />
          </li>
        ))}
      </ol>
    </>
  );
}
