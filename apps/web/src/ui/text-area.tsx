import { Field } from './field.js';

interface TextAreaProps {
  readonly label: string;
  readonly hint?: string;
  readonly fault?: string | undefined;
  readonly rows?: number;
  readonly maxLength: number;
  readonly value: string;
  readonly onText: (text: string) => void;
}

/** Several lines to write on; may stay empty. */
export function TextArea({ label, hint, fault, onText, ...area }: TextAreaProps) {
  return (
    <Field label={label} fault={fault} {...(hint === undefined ? {} : { hint })}>
      {(attributes) => (
        <textarea rows={2} {...area} {...attributes} onChange={(event) => onText(event.target.value)} />
      )}
    </Field>
  );
}
