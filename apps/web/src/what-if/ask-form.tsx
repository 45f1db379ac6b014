import { useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { Refusal } from '../ui/refusal.js';
import { SelectField } from '../ui/select-field.js';
import { PickForm } from './pick-form.js';
import type { Picked } from './pick.js';
import type { Floor } from './read-floor.js';
import type { WhatIfsInHand } from './use-what-ifs.js';

const WEEKS: readonly (readonly [string, string])[] = [
  ['13', '13 weeks'],
  ['26', '26 weeks'],
  ['52', '52 weeks'],
];
const YEARS: readonly (readonly [string, string])[] = [
  ['3', '3, soon there'],
  ['5', '5 different ones'],
  ['10', '10, surer'],
];
const MOST = 6;

interface AskProps {
  readonly floor: Floor;
  readonly ask: WhatIfsInHand['ask'];
  readonly onAsked: (id: string) => void;
}

/** Collects what is to be compared and asks it. */
export function AskForm({ floor, ask, onAsked }: AskProps) {
  const [alternatives, setAlternatives] = useState<readonly (readonly Picked[])[]>([]);
  const [weeks, setWeeks] = useState('26');
  const [years, setYears] = useState('5');
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const pick = (picked: Picked, together: boolean): void => {
    const last = alternatives.at(-1);
    if (together && last) setAlternatives([...alternatives.slice(0, -1), [...last, picked]]);
    else setAlternatives([...alternatives, [picked]].slice(0, MOST));
  };
  const send = async (): Promise<void> => {
    setIsBusy(true);
    const answer = await ask({
      alternatives: alternatives.map((changes) => ({ changes: changes.map(({ change }) => change) })),
      ...{ weeks: Number(weeks), years: Number(years) },
    });
    setIsBusy(false);
    if ('fault' in answer) {
      setFault(answer.fault);
      return;
    }
    setFault(null);
    setAlternatives([]);
    onAsked(answer.id);
  };
  const said = fault && [fault.detail, ...(fault.fields ?? []).map(({ detail }) => detail)].join(' ');
  return (
    <section className="ask" aria-labelledby="ask-title">
      <h2 id="ask-title">Ask</h2>
      <PickForm floor={floor} hasAny={alternatives.length > 0} onPick={pick} />
      <ol className="picked" aria-label="To be compared with the shop as it is">
        {alternatives.map((changes, k) => {
          const words = changes.map((one) => one.words).join(', and ');
          return (
            <li key={`${k} ${words}`}>
              {words}
              <button
                type="button"
                className="plain"
                aria-label={`Take out: ${words}`}
                onClick={() => setAlternatives(alternatives.filter((_, other) => other !== k))}
              >
                Take out
              </button>
            </li>
          );
        })}
      </ol>
      <div className="how-much">
        <SelectField label="Each replayed year has" value={weeks} options={WEEKS} onPick={setWeeks} />
        <SelectField label="Different years" value={years} options={YEARS} onPick={setYears} />
      </div>
      <Refusal detail={said ?? undefined} />
      <div className="acts">
        <button
          type="button"
          className="button main"
          disabled={isBusy || alternatives.length === 0}
          onClick={() => void send()}
        >
          Replay the work
        </button>
      </div>
    </section>
  );
}
