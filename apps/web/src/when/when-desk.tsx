import type { SyntheticEvent } from 'react';
import type { ApiFault } from '../api/fault.js';
import { today } from '../estimate/today.js';
import { useLate } from '../estimate/use-late.js';
import { fieldFault } from '../ui/field.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { StatusLine } from '../ui/status-line.js';
import { DayBoxes } from './day-boxes.js';
import { OfferRows } from './offer-rows.js';
import { type CallInHand, useCall } from './use-call.js';
import { useKept } from './use-kept.js';
import { VehicleBox } from './vehicle-box.js';
import { WorkBox } from './work-box.js';

const loadHeld = () => import('./held-slip.js');
const loadKept = () => import('./kept-list.js');

/** One call: what comes, what can be said, what is held. Nothing that was typed is lost by an error. */
export function WhenDesk({ zone }: { readonly zone: string }) {
  const { kept, line, read } = useKept();
  const inHand = useCall(zone, () => void read());
  const list = useLate(loadKept, true, kept);
  return (
    <main className="when">
      <h1 className="vh">When could it be ready?</h1>
      <Question key={inHand.calls} zone={zone} inHand={inHand} />
      <Answer zone={zone} inHand={inHand} />
      {list && (
        <list.KeptList
          kept={kept}
          onDone={inHand.say}
          onResume={inHand.held === null ? inHand.onHeld : null}
        />
      )}
      <StatusLine
        lost={line === 'lost'}
        lostWords="The list of kept places may be old."
        words={inHand.said}
        refused={false}
      >
        <div className="keys">
          <span>
            <kbd>Enter</kbd> asks, and holds an offer
          </span>
          <span>
            <kbd>1</kbd>–<kbd>9</kbd> holds that one
          </span>
        </div>
      </StatusLine>
    </main>
  );
}

interface PartProps {
  readonly zone: string;
  readonly inHand: CallInHand;
}

function Question({ zone, inHand }: PartProps) {
  const { draft, fault, busy, held, change, ask } = inHand;
  const wrong = (pointer: string): string | undefined => fieldFault(fault?.fields, pointer);
  return (
    <form
      noValidate
      className="question"
      aria-label="The call"
      onSubmit={(event: SyntheticEvent) => {
        event.preventDefault();
        void ask();
      }}
    >
      <fieldset disabled={held !== null}>
        <legend className="vh">What comes, and when</legend>
        <VehicleBox draft={draft} fault={wrong} onChange={change} />
        <WorkBox work={draft.work} fault={wrong} onChange={(work) => change({ work })} />
        <DayBoxes
          today={today(zone)}
          days={draft.days}
          time={draft.time}
          fault={draft.days.map((_, at) => wrong(`/brought/${at}`)).find((words) => words !== undefined)}
          onChange={change}
        />
        <label className="tick">
          <input
            type="checkbox"
            checked={draft.mayMove}
            onChange={() => change({ mayMove: !draft.mayMove })}
          />
          <span>Also look what would be possible if others moved</span>
        </label>
        <button type="submit" className="button main wide" disabled={busy}>
          When?
        </button>
      </fieldset>
    </form>
  );
}

function Answer({ zone, inHand }: PartProps) {
  const { draft, asked, held, fault, busy } = inHand;
  const slip = useLate(loadHeld, asked !== null || held !== null, held);
  return (
    <section className="answer" aria-label="What can be said" aria-busy={busy}>
      <Refusal detail={fault && !isAtField(fault) ? refusalWords(fault, 'plan') : undefined} />
      {held === null && asked === null && (
        <p className="empty">
          What can be said stands here: when to bring it, which lift, when it is likely ready. Asking changes
          nothing.
        </p>
      )}
      {held === null && asked && (
        <OfferRows
          offers={asked.answer.offers}
          noPlace={asked.answer.noPlace}
          busy={busy}
          onHold={(offer) => void inHand.hold(offer)}
        />
      )}
      {held && slip && (
        <slip.HeldSlip
          key={held.id}
          {...{ held, zone }}
          vehicleWords={draft.vehicle ? draft.vehicle.words : draft.vehicleWords}
          onHeld={inHand.onHeld}
          onTaken={inHand.taken}
          onOver={inHand.over}
        />
      )}
    </section>
  );
}

/** Refusals that stand beside a field of the question are not said twice. */
const isAtField = ({ fields = [] }: ApiFault): boolean =>
  fields.length > 0 && fields.every(({ pointer }) => /^\/(weightKg|vehicleId|work|brought)/.test(pointer));
