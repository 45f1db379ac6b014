import type { Contingency } from '../api/estimate-types.js';
import type { LineTicketProps } from './line-ticket.js';
import { type Money, hoursOf } from './money.js';
import { chanceWords, contingencyState, lowerFirst } from './words.js';

/** What is charged only if a named thing happens; torn off separately, as the owner agrees to it separately. */
export function ContingencyList({ line, money, isDraft, onWrite }: LineTicketProps) {
  const all = line.contingencies;
  if (all.length === 0) return null;
  return (
    <ul className="contingencies" aria-label={`Contingencies of ${line.title}`}>
      {all.map((contingency) => (
        <li key={contingency.id} className={contingency.state}>
          <p>
            <b>If {lowerFirst(contingency.what)}:</b> {extraOf(contingency)},{' '}
            <span className="num">{money.full(contingency.priceCents)}</span> more.
          </p>
          <p className="terms">
            <span>Chance {chanceWords(contingency.chancePpm)}</span>
            <span>
              Never more than <span className="num">{money.full(contingency.capCents)}</span>
            </span>
            <b>{stateOf(contingency, money)}</b>
            {isDraft && (
              <button
                type="button"
                className="plain"
                onClick={() => onWrite({ kind: 'contingency', line, contingency })}
              >
                Change<span className="vh"> the contingency: if {lowerFirst(contingency.what)}</span>
              </button>
            )}
          </p>
        </li>
      ))}
    </ul>
  );
}

function extraOf({ hundredths, items }: Contingency): string {
  const names = items.map((item) => item.name);
  return [hundredths > 0 ? `${hoursOf(hundredths)} labour` : '', ...names].filter(Boolean).join(', ');
}

function stateOf({ state, chargedCents }: Contingency, money: Money): string {
  const charged =
    state === 'triggered' && chargedCents !== null ? `, ${money.full(chargedCents)} charged` : '';
  return contingencyState[state] + charged;
}
