import { type SubmitEvent, useState } from 'react';
import { useFirstField } from '../ui/use-first-field.js';
import { TextField } from '../ui/text-field.js';

interface ReasonFormProps {
  readonly kind: 'pause' | 'release';
  readonly needed: boolean;
  readonly busy: boolean;
  readonly onReason: (reason: string) => void;
  readonly onCancel: () => void;
}

const usual: Readonly<Record<ReasonFormProps['kind'], readonly string[]>> = {
  pause: [
    'A part is missing or wrong',
    'The owner has to decide something',
    'Helping at another car',
    'Break',
  ],
  release: ['Somebody else takes it', 'It needs another skill', 'End of the shift'],
};
const OTHER = 'Something else';

/** Why the work stops: one of the usual reasons, or words. */
export function ReasonForm({ kind, needed, busy, onReason, onCancel }: ReasonFormProps) {
  const form = useFirstField();
  const [choice, setChoice] = useState('');
  const [words, setWords] = useState('');
  const reason = choice === OTHER ? words.trim() : choice;
  const complete = reason !== '' || (!needed && choice === '');
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    if (complete) onReason(reason);
  };
  return (
    <form ref={form} className="reason-form" onSubmit={submit}>
      <fieldset className="choices">
        <legend>
          {kind === 'pause'
            ? 'Why does the work pause?'
            : `Why is the claim released?${needed ? '' : ' (if you like)'}`}
        </legend>
        {[...usual[kind], OTHER].map((option) => (
          <label key={option}>
            <input
              type="radio"
              name="reason"
              checked={choice === option}
              onChange={() => setChoice(option)}
            />
            {option}
          </label>
        ))}
      </fieldset>
      {choice === OTHER && (
        <TextField label="In your words" maxLength={200} value={words} onText={setWords} />
      )}
      <div className="acts">
        <button type="submit" className="button main" disabled={busy || !complete}>
          {kind === 'pause' ? 'Pause' : 'Release the claim'}
        </button>
        <button type="button" className="button" onClick={onCancel}>
          Back
        </button>
      </div>
    </form>
  );
}
