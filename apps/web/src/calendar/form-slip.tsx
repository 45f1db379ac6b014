import type { ReactNode, SubmitEvent } from 'react';
import type { ApiFault } from '../api/fault.js';
import { Dialog } from '../ui/dialog.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';
import { useFirstField } from '../ui/use-first-field.js';

interface SlipProps {
  readonly title: string;
  /** On the button that sends it. */
  readonly act: string;
  readonly fault: ApiFault | null;
  readonly busy: boolean;
  readonly onSubmit: (event: SubmitEvent) => void;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

export function FormSlip({ title, act, fault, busy, onSubmit, onClose, children }: SlipProps) {
  const form = useFirstField();
  return (
    <Dialog title={title} onClose={onClose} className="times-slip">
      <form ref={form} onSubmit={onSubmit}>
        <Refusal detail={fault ? refusalWords(fault, 'page') : undefined} />
        {children}
        <div className="acts">
          <button type="submit" className="button main" disabled={busy}>
            {busy ? 'One moment' : act}
          </button>
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
        </div>
      </form>
    </Dialog>
  );
}

interface EitherProps<T extends string> {
  readonly legend: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onPick: (value: T) => void;
}

/** One of two or three, all in sight. */
export function Either<T extends string>({ legend, value, options, onPick }: EitherProps<T>) {
  return (
    <fieldset className="choices">
      <legend>{legend}</legend>
      {options.map(([option, words]) => (
        <label key={option}>
          <input type="radio" name={legend} checked={value === option} onChange={() => onPick(option)} />
          {words}
        </label>
      ))}
    </fieldset>
  );
}

interface DayAndTimeProps {
  readonly label: string;
  readonly day: string;
  readonly time: string;
  readonly fault: string | undefined;
  readonly onDay: (day: string) => void;
  readonly onTime: (time: string) => void;
}

/** A time of the shop's wall. */
export function DayAndTime({ label, day, time, fault, onDay, onTime }: DayAndTimeProps) {
  return (
    <div className="fields">
      <TextField label={label} type="date" value={day} fault={fault} onText={onDay} />
      <TextField label="At" type="time" value={time} onText={onTime} />
    </div>
  );
}
