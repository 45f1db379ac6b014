import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, useId, useState } from 'react';
import { POSITIONS } from '#libs/estimate';
import { call } from '../../api/client.js';
import type { Operation } from '../../api/estimate-types.js';
import { Field } from '../../ui/field.js';
import { type Refused, valueOf } from '../answers.js';
import { useSettled } from '../use-settled.js';
import { positionWords } from '../words.js';
import type { OperationDraft } from './line-draft.js';
import type { DraftProps } from './line-form.js';

/** The operations of the line, found in the shop's own catalogue by what they are called. */
export function OperationSearch({ draft, wrong, change }: DraftProps) {
  const put = (operations: readonly OperationDraft[]): void => change({ operations });
  return (
    <fieldset className="operations">
      <legend>Operations</legend>
      <OperationBox
        onPick={({ id, name }) =>
          draft.operations.some((one) => one.operationId === id)
            ? undefined
            : put([...draft.operations, { operationId: id, name, positions: [] }])
        }
      />
      {wrong('/operations') !== undefined && <p className="wrong">{wrong('/operations')}</p>}
      {draft.operations.map((operation, at) => (
        <div key={operation.operationId} className="operation">
          <b>{operation.name}</b>
          <button
            type="button"
            className="plain"
            onClick={() => put(draft.operations.filter((one) => one !== operation))}
          >
            Take out<span className="vh"> {operation.name}</span>
          </button>
          <Positions
            operation={operation}
            fault={wrong(`/operations/${at}/positions`)}
            onChange={(positions) =>
              put(draft.operations.map((one) => (one === operation ? { ...one, positions } : one)))
            }
          />
        </div>
      ))}
    </fieldset>
  );
}

interface PositionsProps {
  readonly operation: OperationDraft;
  readonly fault: string | undefined;
  readonly onChange: (positions: readonly string[]) => void;
}

function Positions({ operation: { name, positions }, fault, onChange }: PositionsProps) {
  return (
    <fieldset className="places">
      <legend className="vh">Where: {name}</legend>
      {POSITIONS.map((position) => (
        <label key={position}>
          <input
            type="checkbox"
            checked={positions.includes(position)}
            onChange={() =>
              onChange(
                positions.includes(position)
                  ? positions.filter((one) => one !== position)
                  : [...positions, position],
              )
            }
          />
          <span>{positionWords(position)}</span>
        </label>
      ))}
      {fault !== undefined && <p className="wrong">{fault}</p>}
    </fieldset>
  );
}

/** A field with a list under it: arrows walk, Enter takes, Escape leaves the list and not the sheet. */
function OperationBox({ onPick }: { readonly onPick: (operation: Operation) => void }) {
  const list = useId();
  const [text, setText] = useState('');
  const [at, setAt] = useState(0);
  const found = useOperations(useSettled(text.trim(), 200), text.trim() !== '');
  const open = text.trim() !== '';
  const pick = (operation: Operation | undefined): void => {
    if (!operation) return;
    onPick(operation);
    setText('');
    setAt(0);
  };
  const press = (event: KeyboardEvent): void => {
    if (!open) return;
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by !== undefined) setAt(Math.min(Math.max(at + by, 0), Math.max(found.length - 1, 0)));
    else if (event.key === 'Enter' && !event.ctrlKey) pick(found[at]);
    else if (event.key === 'Escape') setText('');
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div className="search">
      <Field label="Search the catalogue" hint="Arrows and Enter take one">
        {(attributes) => (
          <input
            {...attributes}
            type="text"
            role="combobox"
            autoComplete="off"
            aria-expanded={open}
            aria-controls={list}
            aria-activedescendant={open && found[at] ? `${list}-${at}` : undefined}
            value={text}
            onChange={(event) => {
              setText(event.target.value);
              setAt(0);
            }}
            onKeyDown={press}
          />
        )}
      </Field>
      <ul id={list} role="listbox" aria-label="Operations found" hidden={!open}>
        {found.map((operation, n) => (
          <li
            key={operation.id}
            id={`${list}-${n}`}
            role="option"
            aria-selected={n === at}
            onPointerDown={(event) => {
              event.preventDefault();
              pick(operation);
            }}
          >
            <span className="num">{operation.code}</span> {operation.name}
          </li>
        ))}
      </ul>
      <p role="status" className="hint">
        {open && found.length === 0 ? 'No operation is called that.' : ''}
      </p>
    </div>
  );
}

function useOperations(q: string, enabled: boolean): readonly Operation[] {
  const query = useQuery<readonly Operation[], Refused>({
    queryKey: ['operations', q],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/operations', { query: { q, limit: 8 }, signal }))).items,
    placeholderData: keepPreviousData,
    retry: false,
    enabled: enabled && q !== '',
  });
  return query.data ?? [];
}
