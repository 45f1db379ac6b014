import type { SpendingSet } from '../../api/estimate-types.js';
import { MarkSign } from '../../ui/marks.js';
import { ratioWords } from '../ratio.js';
import { lines } from '../words.js';
import { proofWords } from './proof-words.js';
import type { Taking } from './taking.js';

interface SetProps extends Taking {
  readonly set: SpendingSet;
  readonly budget: number;
  /** The second thing to say: without it the car can be driven. */
  readonly quiet: boolean;
}

/** The best that the sum buys, as a ticket: what is in it, what stays out, and whether anything better can exist. */
export function SetTicket({ set, budget, quiet, money, titles, isTaken, onTake }: SetProps) {
  const drivable = set.kind === 'drivable';
  const taken = isTaken(set.chosen);
  const left = budget - set.priceCents;
  const id = `set-${set.kind}`;
  return (
    <article className={`set ${set.kind}${quiet ? ' quiet' : ''}`} aria-labelledby={id}>
      <header>
        <h3 id={id}>
          {!drivable && <MarkSign mark="unsafe" />}
          {drivable
            ? 'The car can be driven'
            : quiet
              ? 'If it is not to be driven'
              : 'The car is not to be driven'}
        </h3>
        <b className="num">{money.full(set.priceCents)}</b>
      </header>
      <p className="terms">
        <span>
          <span className="num">{money.full(Math.max(0, left))}</span> of it left
        </span>
        {set.ratioOfValuePpm !== null && (
          <span>{ratioWords(set.ratioOfValuePpm)} of the vehicle’s value</span>
        )}
      </p>
      {set.lines.length === 0 && <p className="notice">Nothing of it fits into this sum.</p>}
      <ul className="set-lines">
        {set.lines.map((line) => (
          <li key={line.lineId}>
            <span>
              {line.title}
              {line.mustInclude && <small> has to be in</small>}
            </span>
            <span className="num">{money.full(line.totalCents)}</span>
          </li>
        ))}
      </ul>
      {set.leftOut.length > 0 && (
        <p className="left-out">
          <b>Left out:</b> {set.leftOut.map((lineId) => titles.get(lineId) ?? '').join('; ')}
        </p>
      )}
      <Why set={set} />
      <footer>
        <button
          type="button"
          className={taken || quiet ? 'button' : 'button main'}
          disabled={taken}
          onClick={() => onTake(set.chosen)}
        >
          {taken ? 'These are chosen now' : `Choose these ${lines(set.chosen.length)}`}
        </button>
      </footer>
    </article>
  );
}

function Why({ set }: { readonly set: SpendingSet }) {
  return (
    <details>
      <summary>Why these, and is there anything better</summary>
      <p>{proofWords(set)}</p>
      <ul className="made-of">
        {set.lines.map((line) => (
          <li key={line.lineId}>
            {line.title}: {line.why}
          </li>
        ))}
      </ul>
    </details>
  );
}
