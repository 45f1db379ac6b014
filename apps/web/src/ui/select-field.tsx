import { Field } from './field.js';

interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly hint?: string;
  readonly fault?: string | undefined;
  readonly value: T;
  /** Values and their words, in order. */
  readonly options: readonly (readonly [T, string])[];
  readonly required?: boolean;
  readonly onPick: (value: T) => void;
}

export function SelectField<T extends string>(props: SelectFieldProps<T>) {
  const { label, hint, fault, value, options, required, onPick } = props;
  return (
    <Field label={label} fault={fault} {...(hint === undefined ? {} : { hint })}>
      {(attributes) => (
        <select
          {...attributes}
          required={required}
          value={value}
          onChange={(event) => onPick(event.target.value as T)}
        >
          {options.map(([option, words]) => (
            <option key={option} value={option}>
              {words}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
