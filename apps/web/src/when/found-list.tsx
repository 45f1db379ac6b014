import { type KeyboardEvent, type ReactNode, useId, useState } from 'react';
import { Field } from '../ui/field.js';

interface FoundListProps<T> {
  readonly label: string;
  readonly hint: string;
  readonly fault?: string | undefined;
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly found: readonly T[];
  readonly keyOf: (one: T) => string;
  readonly show: (one: T) => ReactNode;
  readonly onPick: (one: T) => void;
  /** Said where nothing was found. */
  readonly nothing: string;
  readonly autoFocus?: boolean;
}

/** A field with what was found under it: arrows walk, Enter takes, Escape empties the field. */
export function FoundList<T>(props: FoundListProps<T>) {
  const { label, hint, fault, text, onText, found, keyOf, show, onPick, nothing } = props;
  const list = useId();
  const [at, setAt] = useState(0);
  const [isHere, setIsHere] = useState(false);
  const open = isHere && text.trim() !== '' && found.length > 0;
  const pick = (one: T | undefined): void => {
    if (one === undefined) return;
    setAt(0);
    onPick(one);
  };
  const press = (event: KeyboardEvent): void => {
    if (text.trim() === '' || event.ctrlKey) return;
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by !== undefined) setAt(Math.min(Math.max(at + by, 0), Math.max(found.length - 1, 0)));
    else if (event.key === 'Enter') pick(found[at]);
    else if (event.key === 'Escape') onText('');
    else return;
    event.preventDefault();
  };
  return (
    <div className="found">
      <Field label={label} hint={hint} fault={fault}>
        {(attributes) => (
          <input
            {...attributes}
            type="text"
            role="combobox"
            autoComplete="off"
            autoFocus={props.autoFocus === true}
            aria-expanded={open}
            aria-controls={list}
            aria-activedescendant={open && found[at] !== undefined ? `${list}-${at}` : undefined}
            value={text}
            onChange={(event) => {
              onText(event.target.value);
              setAt(0);
            }}
            onFocus={() => setIsHere(true)}
            onBlur={() => setIsHere(false)}
            onKeyDown={press}
          />
        )}
      </Field>
      <ul id={list} role="listbox" aria-label={`Found: ${label}`} hidden={!open}>
        {found.map((one, n) => (
          <li
            key={keyOf(one)}
            id={`${list}-${n}`}
            role="option"
            aria-selected={n === at}
            onPointerDown={(event) => {
              event.preventDefault();
              pick(one);
            }}
          >
            {show(one)}
          </li>
        ))}
      </ul>
      <p role="status" className="hint">
        {text.trim() !== '' && found.length === 0 ? nothing : ''}
      </p>
    </div>
  );
}
