import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { NoPlace, Offer } from './when-types.js';

interface OfferRowsProps {
  readonly offers: readonly Offer[];
  readonly noPlace: NoPlace | null;
  readonly busy: boolean;
  readonly onHold: (offer: Offer) => void;
}

/** What can be said on the phone, a row for each: the keys 1 to 9 or the arrows and Enter hold one. */
export function OfferRows({ offers, noPlace, busy, onHold }: OfferRowsProps) {
  const list = useRef<HTMLOListElement>(null);
  const rows = (): HTMLElement[] => [...(list.current?.querySelectorAll<HTMLElement>('button') ?? [])];
  useEffect(() => rows()[0]?.focus(), [offers]);
  const press = (event: KeyboardEvent): void => {
    const at = rows().indexOf(document.activeElement as HTMLElement);
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const number = /^[1-9]$/.test(event.key) ? Number(event.key) - 1 : undefined;
    const chosen = number === undefined ? undefined : offers[number];
    if (by !== undefined) rows()[Math.min(Math.max(at + by, 0), offers.length - 1)]?.focus();
    else if (chosen !== undefined) onHold(chosen);
    else return;
    event.preventDefault();
  };
  if (noPlace !== null)
    return (
      <div className="no-place">
        <p>
          <b>{noPlace.detail}</b>
        </p>
        <p>{noPlace.remedy}</p>
      </div>
    );
  return (
    <ol ref={list} className="offers" aria-label="Offers" onKeyDown={press}>
      {offers.map((offer, at) => (
        <li key={offer.offerKey}>
          <button type="button" disabled={busy} onClick={() => onHold(offer)}>
            <span className="num" aria-hidden="true">
              {at + 1}
            </span>
            <span className="words">{offer.words}</span>
            <span className="with">
              {[...new Set(offer.places.map(({ technicianName }) => technicianName))].join(', ')}
            </span>
          </button>
          {offer.moves.length > 0 && <Moves offer={offer} />}
        </li>
      ))}
    </ol>
  );
}

function Moves({ offer }: { readonly offer: Offer }) {
  return (
    <ul className="moves" aria-label="What would have to move">
      {offer.moves.map(({ id, kind, number, title, is, why }) => (
        <li key={`${id} ${title}`}>
          <b>
            {kind === 'work-order' ? 'Work order' : 'Reservation'} {number}
          </b>{' '}
          {title} {is === null ? 'would lose its place.' : `would go to ${is.bayName}, ${is.technicianName}.`}{' '}
          {why}
        </li>
      ))}
    </ul>
  );
}
