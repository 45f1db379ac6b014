import type { WhatIf, WhatIfAlternative } from '../api/what-if-types.js';
import { IntervalBar } from './interval-bar.js';
import { TOLD, type Told, differenceWords, figureOf, intervalWords, number } from './figures.js';

/** The shop as it is, and beside it what each alternative would change, for every figure in words and as a bar. */
export function Answer({ shown }: { readonly shown: WhatIf }) {
  return (
    <section className="answer" aria-labelledby="answer-title">
      <h2 id="answer-title">{TITLES[shown.state]}</h2>
      {shown.state === 'failed' && <p className="refusal">{shown.failedReason}</p>}
      {(shown.state === 'waiting' || shown.state === 'running') && (
        <p className="notice">
          {shown.years} years of {shown.weeks} weeks are replayed for the shop as it is and for{' '}
          {shown.asked.length === 1 ? 'one alternative' : `each of ${shown.asked.length} alternatives`}. The
          answer appears here by itself; you may leave this page.
        </p>
      )}
      {shown.state === 'answered' && <Compared shown={shown} />}
      <Basis shown={shown} />
    </section>
  );
}

const TITLES = {
  waiting: 'Waiting for its turn',
  running: 'Being replayed',
  answered: 'What came of it',
  failed: 'There is no answer',
} as const;

function Compared({ shown }: { readonly shown: WhatIf }) {
  return (
    <>
      <dl className="as-it-is-figures" aria-label="The shop as it is">
        {TOLD.map(({ figure, title, unit }) => (
          <div key={figure}>
            <dt>{title}</dt>
            <dd>
              <b className="num">{number(figureOf(shown.base, figure)?.hundredths ?? 0)}</b> {unit}
            </dd>
          </div>
        ))}
      </dl>
      <ol className="alternatives">
        {shown.alternatives.map((alternative) => (
          <li key={alternative.name}>
            <Alternative alternative={alternative} all={shown.alternatives} />
          </li>
        ))}
      </ol>
    </>
  );
}

interface AlternativeProps {
  readonly alternative: WhatIfAlternative;
  readonly all: readonly WhatIfAlternative[];
}

function Alternative({ alternative, all }: AlternativeProps) {
  const { name, advice } = alternative;
  return (
    <article aria-label={name}>
      <h3>{name}</h3>
      <div className="differences">
        {TOLD.map((told) => (
          <Difference key={told.figure} {...{ told, alternative, all }} />
        ))}
      </div>
      {advice.map(({ code, words }) => (
        <p key={code} className="advice">
          {words}
        </p>
      ))}
    </article>
  );
}

function Difference({ told, alternative, all }: AlternativeProps & { readonly told: Told }) {
  const difference = figureOf(alternative.differences, told.figure);
  if (!difference) return null;
  const then = figureOf(alternative.figures, told.figure);
  return (
    <div className="difference">
      <h4>{told.title}</h4>
      <p className="then">
        <b>{differenceWords(difference, told)}</b>
      </p>
      <IntervalBar difference={difference} reach={reachOf(all, told.figure)} />
      <p className="interval-words">
        <span className="num">{number(then?.hundredths ?? 0)}</span> then; difference{' '}
        <span className="num">{intervalWords(difference)}</span>
      </p>
    </div>
  );
}

/** One scale for a figure over all alternatives, so that their bars can be compared. */
function reachOf(all: readonly WhatIfAlternative[], figure: string): number {
  const ends = all.flatMap(({ differences }) => {
    const { low, hundredths, high } = figureOf(differences, figure) ?? { low: 0, hundredths: 0, high: 0 };
    return [low ?? 0, hundredths, high ?? 0].map(Math.abs);
  });
  return Math.max(0, ...ends);
}

function Basis({ shown: { basis, weeks, years } }: { readonly shown: WhatIf }) {
  return (
    <section className="basis" aria-labelledby="basis-title">
      <h3 id="basis-title">What this rests on</h3>
      <p>
        {basis.source === 'history'
          ? `${basis.repairOrders} repair orders of the last 90 days, drawn again for ${years} different years of ${weeks} weeks; ${basis.finishedWork} finished jobs say how clocked hours compare with book hours.`
          : `The catalogue, as the last 90 days say too little: ${years} different years of ${weeks} weeks.`}{' '}
        Every alternative sees the same cars, hours and parts. A bar shows where the difference lies in 95 of
        100 cases.
      </p>
      <ul>
        {basis.assumed.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </section>
  );
}
