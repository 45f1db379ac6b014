import { useState } from 'react';
import type { Estimate, Order, Revision } from '../api/estimate-types.js';
import { LateProvider, loadLateParts } from './late.js';
import { LineList } from './line-list.js';
import { moneyOf } from './money.js';
import { RevisionState } from './revision-state.js';
import { Tally } from './tally.js';
import { useChosen } from './use-chosen.js';
import { useLate } from './use-late.js';
import { usePrices, useRange } from './use-prices.js';
import { WriteBar } from './write-bar.js';
import type { Say, Writing } from './writing.js';

interface DeskProps {
  readonly order: Order;
  readonly estimate: Estimate;
  readonly revision: Revision | undefined;
  readonly zone: string;
  readonly read: () => Promise<void>;
  readonly say: Say;
}

const loadWriting = () => import('./writing/index.js');

/** The lines of a revision, what the ticked ones come to, what the owner can spend, and the pen to write with. */
export function RevisionDesk(props: DeskProps) {
  const { order, estimate, revision, zone, read, say } = props;
  const [writing, setWriting] = useState<Writing | null>(null);
  const pen = useLate(loadWriting, writing !== null, writing);
  return (
    <>
      {revision && revision.lines.length > 0 ? (
        <ChosenLines {...props} revision={revision} onWrite={setWriting} />
      ) : (
        <section className="nothing-yet">
          <h2>No line is written yet</h2>
          <p className="notice">
            Write the first one: it begins a draft, which nobody sees until you send it.
          </p>
          <WriteBar order={order} revision={revision} onWrite={setWriting} />
        </section>
      )}
      {writing && pen && (
        <pen.WritingDialog
          {...{ writing, order, estimate, read, say, zone }}
          onClose={() => setWriting(null)}
        />
      )}
    </>
  );
}

interface ChosenLinesProps extends DeskProps {
  readonly revision: Revision;
  readonly onWrite: (writing: Writing) => void;
}

function ChosenLines({ order, estimate, revision, zone, say, onWrite }: ChosenLinesProps) {
  const chosen = useChosen(revision);
  const prices = usePrices(revision, chosen.ids);
  const range = useRange(revision, chosen.ids);
  const late = useLate(loadLateParts, true, prices.data);
  const money = moneyOf(estimate.currency);
  // What is agreed to is outside of any sum: without another line there is nothing to spend it on.
  const undecided = revision.lines.some((line) => line.decision?.answer !== 'approved');
  const take = (ids: readonly string[]): void => {
    chosen.take(ids);
    say(`${ids.length} of ${revision.lines.length} lines are chosen now.`);
  };
  return (
    <LateProvider value={late}>
      <div className="work">
        <section className="lines" aria-labelledby="lines-title">
          <RevisionState {...{ revision, zone, money }} />
          <LineList {...{ revision, chosen, money, zone, onWrite }} prices={prices.data} />
          <WriteBar {...{ order, revision, onWrite }} />
        </section>
        <p className={`running${prices.behind ? ' behind' : ''}`} aria-hidden="true">
          Chosen {chosen.ids.length} of {revision.lines.length}
          <b className="num">{prices.data ? money.full(prices.data.totals.totalCents) : '…'}</b>
        </p>
        <Tally {...{ estimate, revision, chosen, prices, range, money, onWrite }} />
      </div>
      {late && undecided && <late.Spending {...{ revision, chosen, money }} onTake={take} />}
      {!late && undecided && <div className="later" />}
    </LateProvider>
  );
}
