import { useState } from 'react';
import type { Rung } from '../../api/estimate-types.js';
import { ratioWords } from '../ratio.js';
import { LadderDrawing } from './ladder-drawing.js';
import { LadderTable } from './ladder-table.js';
import type { LadderProps } from './ladder-props.js';
import { stepWords } from './step-words.js';

/** The best set at every sum where it changes: what each further step brings, and what it costs. */
export function LadderPart(props: LadderProps) {
  const { choices, budget } = props;
  const { rungs, proven } = choices.ladder;
  const [picked, setPicked] = useState<number | null>(null);
  // Unless one was picked: the highest that the sum reaches.
  const reached = rungs.findLastIndex((rung) => rung.priceCents <= (budget ?? choices.allCents));
  const at = Math.min(Math.max(picked ?? reached, 0), rungs.length - 1);
  const rung = rungs[at];
  if (!rung) return null;
  return (
    <section className="ladder" aria-labelledby="ladder-title">
      <header>
        <h2 id="ladder-title">Step by step, from the least to all of it</h2>
        <p className="notice">
          Each step is the most good that its price buys; its height, the good it adds to the first.
          {!proven && ' Not every step is proven to be the best.'}
        </p>
      </header>
      <LadderDrawing {...props} rungs={rungs} at={at} onPick={setPicked} />
      <StepWords {...props} rung={rung} at={at} count={rungs.length} />
      <LadderTable {...props} rungs={rungs} />
    </section>
  );
}

interface StepProps extends LadderProps {
  readonly rung: Rung;
  readonly at: number;
  readonly count: number;
}

function StepWords({ rung, at, count, money, titles, isTaken, onTake, choices }: StepProps) {
  const taken = isTaken(rung.chosen);
  const before = at > 0 ? choices.ladder.rungs[at - 1] : undefined;
  return (
    <div className="step">
      <p className="step-price">
        <span>
          Step {at + 1} of {count}
        </span>
        <b className="num">{money.full(rung.priceCents)}</b>
        {before && (
          <span>
            <span className="num">{money.full(rung.priceCents - before.priceCents)}</span> more than the step
            before
          </span>
        )}
        {rung.ratioOfValuePpm !== null && (
          <span>{ratioWords(rung.ratioOfValuePpm)} of the vehicle’s value</span>
        )}
      </p>
      <p>{stepWords(rung, titles)}</p>
      <button type="button" className="button" disabled={taken} onClick={() => onTake(rung.chosen)}>
        {taken ? 'This step is chosen now' : 'Choose this step'}
      </button>
    </div>
  );
}
