import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { call } from '../api/client.js';
import type { Operation } from '../api/estimate-types.js';
import { type Refused, valueOf } from '../estimate/answers.js';
import { useSettled } from '../estimate/use-settled.js';
import { SelectField } from '../ui/select-field.js';
import { needsPosition, type WorkDraft } from './call-draft.js';
import { FoundList } from './found-list.js';
import { guessed, hoursWords, type Guess } from './guess.js';
import { positionOptions } from './positions.js';

interface WorkBoxProps {
  readonly work: readonly WorkDraft[];
  readonly fault: (pointer: string) => string | undefined;
  readonly onChange: (work: readonly WorkDraft[]) => void;
}

type Found = { readonly guess: Guess } | { readonly operation: Operation };

/** What is to be done: operations of the catalogue, or a guess such as "brakes 2.5 h lift". */
export function WorkBox({ work, fault, onChange }: WorkBoxProps) {
  const [text, setText] = useState('');
  const operations = useOperations(text);
  const guess = guessed(text);
  const found: Found[] = [
    ...(guess === null ? [] : [{ guess }]),
    ...operations.map((operation) => ({ operation })),
  ];
  const key = 1 + Math.max(0, ...work.map((one) => one.key));
  const pick = (one: Found): void => {
    setText('');
    onChange([
      ...work,
      'guess' in one
        ? { kind: 'guess', key, guess: one.guess }
        : { kind: 'operation', key, operation: one.operation, position: '' },
    ]);
  };
  return (
    <>
      <ul className="work" aria-label="Work">
        {work.map((one, at) => (
          <li key={one.key}>
            <WorkRow
              one={one}
              fault={fault(`/work/${at}/positions`) ?? fault(`/work/${at}/hundredths`)}
              onPosition={(position) =>
                onChange(work.map((other) => (other === one ? { ...one, position } : other) as WorkDraft))
              }
              onOut={() => onChange(work.filter((other) => other !== one))}
            />
          </li>
        ))}
      </ul>
      <FoundList
        label={work.length === 0 ? 'What is to be done?' : 'What else?'}
        hint="From the catalogue, or as a guess: brakes 2.5 h lift"
        fault={fault('/work') ?? fault('/work/0/title')}
        text={text}
        onText={setText}
        found={found}
        keyOf={(one) => ('guess' in one ? 'guess' : one.operation.id)}
        show={(one) =>
          'guess' in one ? (
            <>
              {one.guess.title}{' '}
              <span className="beside">
                about {hoursWords(one.guess.hundredths)}
                {one.guess.needsLift ? ', on a lift' : ''}
              </span>
            </>
          ) : (
            <>
              <span className="num">{one.operation.code}</span> {one.operation.name}
            </>
          )
        }
        onPick={pick}
        nothing="Nothing is called that. Add about how long it takes, such as 2.5 h, and “lift” if it needs one."
      />
    </>
  );
}

interface WorkRowProps {
  readonly one: WorkDraft;
  readonly fault: string | undefined;
  readonly onPosition: (position: string) => void;
  readonly onOut: () => void;
}

function WorkRow({ one, fault, onPosition, onOut }: WorkRowProps) {
  const name = one.kind === 'guess' ? one.guess.title : one.operation.name;
  return (
    <div className="picked">
      <p>
        <b>{name}</b>
        {one.kind === 'guess' && (
          <span className="beside">
            about {hoursWords(one.guess.hundredths)}
            {one.guess.needsLift ? ', on a lift' : ''}
          </span>
        )}
      </p>
      <button type="button" className="plain" onClick={onOut}>
        Take out<span className="vh"> {name}</span>
      </button>
      {one.kind === 'operation' && needsPosition(one.operation) && (
        <SelectField
          label={`Where: ${name}`}
          fault={fault}
          value={one.position}
          options={positionOptions}
          onPick={onPosition}
        />
      )}
      {one.kind === 'guess' && fault !== undefined && <p className="wrong">{fault}</p>}
    </div>
  );
}

function useOperations(text: string): readonly Operation[] {
  const q = useSettled(text.trim(), 200);
  const query = useQuery<readonly Operation[], Refused>({
    queryKey: ['operations', q],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/operations', { query: { q, limit: 7 }, signal }))).items,
    placeholderData: keepPreviousData,
    retry: false,
    enabled: q !== '',
  });
  return text.trim() === '' ? [] : (query.data ?? []);
}
