import type { ReactNode } from 'react';
import type { Estimate, Prices, Range, Revision } from '../api/estimate-types.js';
import { useLateParts } from './late.js';
import type { Money } from './money.js';
import type { Chosen } from './use-chosen.js';
import type { Computed } from './use-prices.js';
import { Unanswered } from './unanswered.js';
import { ValueBeside } from './value-beside.js';
import type { Writing } from './writing.js';

interface TallyProps {
  readonly estimate: Estimate;
  readonly revision: Revision;
  readonly chosen: Chosen;
  readonly prices: Computed<Prices>;
  readonly range: Computed<Range>;
  readonly money: Money;
  readonly onWrite: (writing: Writing) => void;
}

/** The slip of the adding machine: what the ticked lines come to, at each tick. */
export function Tally({ estimate, revision, chosen, prices, range, money, onWrite }: TallyProps) {
  const totals = prices.data?.totals;
  const late = useLateParts();
  const value = estimate.vehicle.valueCents;
  return (
    <aside className="tally" aria-labelledby="tally-title">
      <div className={`roll${prices.data ? '' : ' blank'}`}>
        <div className="roll-head">
          <h2 id="tally-title">
            Chosen: {chosen.ids.length} of {revision.lines.length}
          </h2>
          <button
            type="button"
            className="plain"
            onClick={() => chosen.take(revision.lines.map((line) => line.id))}
          >
            All
          </button>
          <button type="button" className="plain" onClick={() => chosen.take([])}>
            None
          </button>
        </div>
        <p
          className={`total num${prices.behind ? ' behind' : ''}`}
          role="status"
          aria-label="Total of what is chosen"
        >
          {totals ? money.full(totals.totalCents) : '…'}
        </p>
        <Unanswered of={prices} what="The total" />
        {prices.data && <Sums prices={prices.data} money={money} />}
        {value !== null && totals && <ValueBeside value={value} total={totals.totalCents} money={money} />}
        {totals && (
          <button type="button" className="plain value" onClick={() => onWrite({ kind: 'value' })}>
            {value === null ? 'Enter the value of the vehicle' : 'Change the value of the vehicle'}
          </button>
        )}
      </div>
      {chosen.ids.length > 0 && (
        <section className={`roll${range.data ? '' : ' blank'}`} aria-labelledby="range-title">
          <h2 id="range-title">What it may come to</h2>
          <Unanswered of={range} what="The range" />
          {range.data && late && (
            <late.RangeRule
              range={range.data}
              total={totals?.totalCents}
              behind={range.behind}
              money={money}
            />
          )}
        </section>
      )}
    </aside>
  );
}

function Sums({ prices, money }: { readonly prices: Prices; readonly money: Money }) {
  const { totals } = prices;
  const late = useLateParts();
  const off = totals.discountCents;
  return (
    <>
      <dl className="sums">
        <Sum name="Labour">{money.full(totals.labourCents)}</Sum>
        <Sum name="Parts">{money.full(totals.partsCents)}</Sum>
        {totals.coreCents > 0 && <Sum name="Core deposits">{money.full(totals.coreCents)}</Sum>}
        <Sum name="Shop supplies">{money.full(totals.suppliesCents)}</Sum>
        {totals.taxes.map((tax) => (
          <Sum key={tax.name} name={tax.name}>
            {money.full(tax.cents)}
          </Sum>
        ))}
      </dl>
      {off > 0 && (
        <p className="hint">
          Discounts of <span className="num">{money.full(off)}</span> are already off.
        </p>
      )}
      {prices.savedCents > 0 && (
        <p className="hint">
          Done together they cost <span className="num">{money.full(prices.savedCents)}</span> less than one
          by one.
        </p>
      )}
      <details>
        <summary>How the total came about</summary>
        {late && <late.Breakdown node={prices.breakdown} money={money} />}
      </details>
    </>
  );
}

function Sum({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd className="num">{children}</dd>
    </div>
  );
}
