import { type ReactNode, useId } from 'react';
import type { FieldFault } from '#libs/kernel';

interface FieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly fault?: string | undefined;
  readonly children: (attributes: {
    id: string;
    'aria-describedby': string | undefined;
    'aria-invalid': boolean;
  }) => ReactNode;
}

/** A label, its control, and what is wrong with it, tied together for every kind of reader. */
export function Field({ label, hint, fault, children }: FieldProps) {
  const id = useId();
  const note = fault ?? hint;
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        'aria-describedby': note === undefined ? undefined : `${id}-note`,
        'aria-invalid': fault !== undefined,
      })}
      {note !== undefined && (
        <p id={`${id}-note`} className={fault === undefined ? 'hint' : 'wrong'}>
          {note}
        </p>
      )}
    </div>
  );
}

/** The words for one field of a refused form. */
export const fieldFault = (fields: readonly FieldFault[] | undefined, pointer: string): string | undefined =>
  fields?.find((field) => field.pointer === pointer)?.detail;
