import { useState } from 'react';
import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import { type CallDraft, NEW_CALL, questionOf, reserveRequestOf } from './call-draft.js';
import type { Offer, Offers, OffersQuestion, Reservation } from './when-types.js';

export interface Asked {
  readonly question: OffersQuestion;
  readonly answer: Offers;
}

/** What stands on the desk during one call, and what can be done with it. */
export interface CallInHand {
  readonly draft: CallDraft;
  readonly asked: Asked | null;
  readonly held: Reservation | null;
  readonly fault: ApiFault | null;
  readonly busy: boolean;
  /** The last thing that happened, to be read out. */
  readonly said: string;
  /** Calls that ended well: the form starts anew with each. */
  readonly calls: number;
  readonly change: (part: Partial<CallDraft>) => void;
  readonly ask: () => Promise<void>;
  readonly hold: (offer: Offer) => Promise<void>;
  readonly onHeld: (held: Reservation) => void;
  readonly over: (words: string) => void;
  readonly taken: (reservation: Reservation) => void;
  readonly say: (words: string) => void;
}

/** @param changed told whenever a reservation was made or ended here. */
export function useCall(zone: string, changed: () => void): CallInHand {
  const [draft, setDraft] = useState<CallDraft>(NEW_CALL);
  const [asked, setAsked] = useState<Asked | null>(null);
  const [held, setHeld] = useState<Reservation | null>(null);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  const [calls, setCalls] = useState(0);
  const ask = async (): Promise<void> => {
    const question = questionOf(draft, zone);
    setBusy(true);
    const answer = await call('post', '/api/v1/plan/offers', { body: question });
    setBusy(false);
    setFault(answer.ok ? null : answer.fault);
    setAsked(answer.ok ? { question, answer: answer.value } : null);
    if (answer.ok) setSaid(offersSaid(answer.value));
  };
  const hold = async (offer: Offer): Promise<void> => {
    if (!asked) return;
    setBusy(true);
    const body = reserveRequestOf(asked.question, offer);
    const answer = await call('post', '/api/v1/reservations', { body });
    setBusy(false);
    setFault(answer.ok ? null : answer.fault);
    if (answer.ok) {
      setHeld(answer.value);
      setSaid(answer.value.words);
    }
    changed();
  };
  const over = (words: string): void => {
    setHeld(null);
    setAsked(null);
    setSaid(words);
    changed();
  };
  return {
    ...{ draft, asked, held, fault, busy, said, calls, ask, hold, over },
    change: (part) => {
      setDraft((before) => ({ ...before, ...part }));
      setFault(null);
    },
    onHeld: setHeld,
    taken: (reservation) => {
      setDraft(NEW_CALL);
      setCalls(calls + 1);
      over(reservation.words);
    },
    say: (words) => {
      setSaid(words);
      changed();
    },
  };
}

function offersSaid({ offers, noPlace }: Offers): string {
  if (noPlace !== null) return noPlace.detail;
  return offers.length === 1 ? 'One offer.' : `${offers.length} offers.`;
}
