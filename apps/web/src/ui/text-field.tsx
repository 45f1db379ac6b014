import type { InputHTMLAttributes } from 'react';
import { Field } from './field.js';

type InputProps = Omit<InputHTMLAttributes<HTMLInputElement>, 'value' | 'onChange'>;
interface TextFieldProps extends InputProps {
  readonly label: string;
  readonly hint?: string;
  readonly fault?: string | undefined;
  readonly value: string;
  readonly onText: (text: string) => void;
}

/** A line to write on; always required, because nothing optional is asked for. */
export function TextField({ label, hint, fault, onText, ...input }: TextFieldProps) {
  return (
    <Field label={label} fault={fault} {...(hint === undefined ? {} : { hint })}>
      {(attributes) => (
        <input
          type="text"
          required
          {...input}
          {...attributes}
          onChange={(event) => onText(event.target.value)}
        />
      )}
    </Field>
  );
}
