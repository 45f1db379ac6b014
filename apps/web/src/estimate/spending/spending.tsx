import { useMemo, useState } from 'react';
import type { Choices, Revision } from '../../api/estimate-types.js';
import { Field, fieldFault } from '../../ui/field.js';
import { type Money, readAmount } from '../money.js';
import { Unanswered } from '../unanswered.js';
import type { Chosen } from '../use-chosen.js';
import { type Computed, useChoices } from '../use-prices.js';
import { LadderPart } from './ladder-part.js';
import { SetTicket } from './set-ticket.js';
import { type Taking, sameLines } from './taking.js';

interface SpendingProps {
  readonly revision: Revision;
  readonly chosen: Chosen;
  readonly money: Money;
  readonly onTake: (lineIds: readonly string[]) => void;
}

/** What to do with this much money, and the ladder of all sums. */
export function Spending(props: SpendingProps) {
  const { revision, chosen, money, onTake } = props;
  const [text, setText] = useState('');
  const budget = readAmount(text);
  const choices = useChoices(revision, budget);
  const titles = useMemo(() => new Map(revision.lines.map(({ id, title }) => [id, title])), [revision.lines]);
  // What is agreed to already stays chosen beside whatever the sum buys.
  const whole = (ids: readonly string[]): string[] => [...(choices.data?.given ?? []), ...ids];
  const shared: Taking = {
    money,
    titles,
    isTaken: (ids) => sameLines(whole(ids), chosen.ids),
    onTake: (ids) => onTake(whole(ids)),
  };
  return (
    <>
      <section className="spending" aria-labelledby="spending-title">
        <SumField {...{ text, budget, choices, money }} onText={setText} />
        <Unanswered of={choices} what="What to do with it" />
        {budget !== null && choices.data && (
          <Sets {...shared} choices={choices.data} budget={budget} behind={choices.behind} />
        )}
      </section>
      {choices.data ? (
        choices.data.ladder.rungs.length > 1 && (
          <LadderPart {...shared} choices={choices.data} budget={budget} />
        )
      ) : (
        <div className="ladder later" aria-hidden="true" />
      )}
    </>
  );
}

interface SumProps {
  readonly text: string;
  readonly budget: number | null;
  readonly choices: Computed<Choices>;
  readonly money: Money;
  readonly onText: (text: string) => void;
}

function SumField({ text, budget, choices, money, onText }: SumProps) {
  const unread = text.trim() !== '' && budget === null;
  const fault = unread
    ? 'Write an amount, such as 1500 or 1500.50.'
    : fieldFault(choices.fault?.fields, '/budgetCents');
  return (
    <div className="sum">
      <h2 id="spending-title">What this owner can spend now</h2>
      <Field
        label="All in, tax included"
        fault={fault}
        hint="As they say it on the phone: 1500, 1,500 or 1500.50"
      >
        {(attributes) => (
          <span className="amount">
            <b aria-hidden="true">{money.sign}</b>
            <input
              {...attributes}
              type="text"
              inputMode="decimal"
              autoComplete="off"
              data-key="F2"
              className="num"
              value={text}
              onChange={(event) => onText(event.target.value)}
            />
          </span>
        )}
      </Field>
    </div>
  );
}

interface SetsProps extends Taking {
  readonly choices: Choices;
  readonly budget: number;
  readonly behind: boolean;
}

function Sets({ choices, budget, behind, ...rest }: SetsProps) {
  const { sets, leastSafeCents } = choices;
  const drivable = sets.some((set) => set.kind === 'drivable');
  return (
    <div className={`sets${behind ? ' behind' : ''}`} aria-busy={behind}>
      {!drivable && leastSafeCents !== null && (
        <p className="refusal">
          <b>This does not make the car fit to be driven.</b> That takes at least{' '}
          <span className="num">{rest.money.full(leastSafeCents)}</span>,{' '}
          <span className="num">{rest.money.full(leastSafeCents - budget)}</span> more.
        </p>
      )}
      {sets.map((set) => (
        <SetTicket
          key={set.kind}
          set={set}
          budget={budget}
          quiet={set.kind !== 'drivable' && drivable}
          {...rest}
        />
      ))}
      {sets.length === 0 && <p className="notice">No line fits into this sum.</p>}
    </div>
  );
}
