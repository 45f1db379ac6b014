import { type SubmitEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { PlanSettings } from '../api/plan-types.js';
import { fieldFault } from '../ui/field.js';
import { Refusal } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';
import type { Say } from './plan-desk.js';
import { type Draft, FIGURES, type Figure, MODES, draftOf, figureOf, requestOf } from './settings-draft.js';
import type { SettingsInHand } from './use-settings.js';

interface FormProps {
  readonly inHand: SettingsInHand;
  readonly settings: PlanSettings;
  readonly say: Say;
}

/** Who changes the plan, and what has to be gained before anything moves. */
export function SettingsForm({ inHand, settings, say }: FormProps) {
  const [typed, setTyped] = useState<Draft | null>(null);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const stored = draftOf(settings);
  const draft = typed ?? stored;
  const isStale = fault?.status === 412;
  const write = (part: Partial<Draft>): void => setTyped({ ...draft, ...part });

  const save = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setIsBusy(true);
    const refused = await inHand.save(requestOf(draft), settings.version);
    setIsBusy(false);
    setFault(refused);
    if (refused) return;
    setTyped(null);
    say('Kept. It holds from the next look at the plan on.');
  };
  return (
    <form className="plan-settings" onSubmit={(event) => void save(event)} noValidate>
      <fieldset className="choices modes">
        <legend>Who changes the plan</legend>
        {MODES.map(([mode, words]) => (
          <label key={mode}>
            <input type="radio" name="mode" checked={draft.mode === mode} onChange={() => write({ mode })} />
            <span>
              {words}
              {isStale && stored.mode === mode && draft.mode !== mode && (
                <b className="theirs"> Now it is this.</b>
              )}
            </span>
          </label>
        ))}
      </fieldset>
      <fieldset>
        <legend>What must be gained before anything moves, in minutes of lateness</legend>
        <div className="figures-of-plan">
          {FIGURES.map((figure) => (
            <TextField
              key={figure.name}
              inputMode="numeric"
              label={figure.label}
              hint={hintOf(figure, draft, isStale ? stored : null)}
              fault={fieldFault(fault?.fields, figure.pointer)}
              value={draft[figure.name]}
              onText={(text) => write({ [figure.name]: text })}
            />
          ))}
        </div>
      </fieldset>
      <Refusal detail={fault === null ? undefined : isStale ? STALE : fault.detail} />
      <div className="acts">
        <button type="submit" className="button main" disabled={isBusy || typed === null}>
          Keep these settings
        </button>
        {typed !== null && (
          <button
            type="button"
            className="plain"
            onClick={() => {
              setTyped(null);
              setFault(null);
            }}
          >
            Back to what holds now
          </button>
        )}
      </div>
    </form>
  );
}

const STALE =
  'Somebody changed the settings first. What you typed is still here, and theirs stand beside it where they differ. Keep yours to put them in the place of theirs.';

function hintOf({ name, hint, words }: Figure, draft: Draft, theirs: Draft | null): string {
  const figure = figureOf(draft[name]);
  const own =
    Number.isNaN(figure) || figure < 60 || name === 'lateness' || name === 'horizonDays'
      ? ''
      : ` That is ${words(figure)}.`;
  const other = theirs !== null && theirs[name] !== draft[name] ? ` Now it is ${theirs[name]}.` : '';
  return `${hint}${own}${other}`;
}
