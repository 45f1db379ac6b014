import { useState } from 'react';
import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import { inShopTime } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { Countdown } from './countdown-line.js';
import { isToldBeside, TakeForm, type Told } from './take-form.js';
import type { Reservation } from './when-types.js';

interface HeldSlipProps {
  readonly held: Reservation;
  readonly zone: string;
  /** What the vehicle was called before it was held. */
  readonly vehicleWords: string;
  readonly onHeld: (held: Reservation) => void;
  readonly onTaken: (taken: Reservation) => void;
  /** Given back, or run out: to the offers again. */
  readonly onOver: (words: string) => void;
}

const OVER =
  'The time is over: the place is free for everybody again. Ask once more; what you typed is still there.';

/** What is held while the customer is on the phone: how long still, and who comes. */
export function HeldSlip({ held, zone, vehicleWords, onHeld, onTaken, onOver }: HeldSlipProps) {
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const said = (instant: string): string => inShopTime(instant, zone, today(zone));
  const doing = async (act: () => Promise<ApiFault | null>): Promise<void> => {
    setBusy(true);
    setFault(await act());
    setBusy(false);
  };
  const path = { id: held.id };
  const headers = ifMatch(held.version);
  const take = async (told: Told): Promise<ApiFault | null> => {
    const answer = await call('post', '/api/v1/reservations/{id}/take', { path, body: told });
    if (answer.ok) onTaken(answer.value);
    return answer.ok ? null : answer.fault;
  };
  const longer = async (): Promise<ApiFault | null> => {
    const answer = await call('patch', '/api/v1/reservations/{id}', { path, headers, body: {} });
    if (answer.ok) onHeld(answer.value);
    return answer.ok ? null : answer.fault;
  };
  const giveBack = async (): Promise<ApiFault | null> => {
    const answer = await call('delete', '/api/v1/reservations/{id}', { path, headers });
    if (answer.ok) onOver('Given back: the place is free again.');
    return answer.ok ? null : answer.fault;
  };
  return (
    <section className="slip-held" aria-label={`Reservation ${held.number}`}>
      <h2>
        Reservation <span className="num">{held.number}</span>
      </h2>
      <p className="held-words">{held.words}</p>
      <Countdown until={Date.parse(held.expiresAt ?? held.madeAt)} onOver={() => onOver(OVER)} />
      <p>
        Comes {said(held.arrivesAt)}.{' '}
        {held.work.map(({ title, bayName }) => `${title}: ${bayName}`).join('; ')}
      </p>
      <TakeForm {...{ held, said, vehicleWords, fault }} onTake={(told) => void doing(() => take(told))}>
        <Refusal detail={fault && !isToldBeside(fault) ? refusalWords(fault, 'reservation') : undefined} />
        <div className="acts">
          <button type="submit" className="button main" disabled={busy}>
            Take it
          </button>
          {!held.isExtended && (
            <button type="button" className="button" disabled={busy} onClick={() => void doing(longer)}>
              Hold longer, once
            </button>
          )}
          <button type="button" className="plain" disabled={busy} onClick={() => void doing(giveBack)}>
            Give it back
          </button>
        </div>
      </TakeForm>
    </section>
  );
}
