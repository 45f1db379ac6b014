import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import type { Rung } from '../../api/estimate-types.js';
import { niceTicks } from '../ticks.js';
import type { LadderProps } from './ladder-props.js';
import { stepWords } from './step-words.js';

interface DrawingProps extends LadderProps {
  readonly rungs: readonly Rung[];
  readonly at: number;
  readonly onPick: (at: number) => void;
}

const STEPS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 5,
  PageDown: -5,
  Home: -Infinity,
  End: Infinity,
};

/**
 * Stairs: to the right what it costs, upwards the good it does. One stop of the Tab key; arrows go from step to step,
 * a press goes to the step under it.
 */
export function LadderDrawing({ rungs, at, choices, budget, money, titles, onPick }: DrawingProps) {
  const field = useRef<HTMLDivElement>(null);
  const rung = rungs[at];
  const value = choices.vehicleValueCents;
  const top = Math.max(choices.allCents, ...rungs.map((one) => one.priceCents));
  const ticks = niceTicks(0, Math.max(top, 100), 5);
  const end = ticks.at(-1) ?? top;
  const x = (cents: number): number => (cents / end) * 100;
  // The first step is drawn low and the rest by what they add to it: what makes a car safe would flatten all else.
  const benefits = rungs.map((one) => one.benefit);
  const [least, most] = [Math.min(...benefits), Math.max(...benefits)];
  const y = (benefit: number): number => 80 - (most > least ? ((benefit - least) / (most - least)) * 68 : 0);
  const to = (next: number): void => onPick(Math.min(Math.max(next, 0), rungs.length - 1));

  const press = (event: KeyboardEvent): void => {
    const by = STEPS[event.key];
    if (by === undefined) return;
    event.preventDefault();
    to(at + by);
  };
  const point = (event: PointerEvent): void => {
    const box = field.current?.getBoundingClientRect();
    if (!box) return;
    const cents = ((event.clientX - box.left) / box.width) * end;
    to(
      Math.max(
        0,
        rungs.findLastIndex((one) => one.priceCents <= cents),
      ),
    );
  };
  if (!rung) return null;
  const first = rungs[0]?.priceCents ?? 0;
  return (
    <div className="stairs">
      <div
        ref={field}
        className="stairs-field"
        role="slider"
        tabIndex={0}
        aria-label="Step of the ladder"
        aria-valuemin={1}
        aria-valuemax={rungs.length}
        aria-valuenow={at + 1}
        aria-valuetext={`${money.full(rung.priceCents)}. ${stepWords(rung, titles)}`}
        onKeyDown={press}
        onPointerDown={point}
        onPointerMove={(event) => event.buttons === 1 && point(event)}
      >
        {first > 0 && (
          <div className="below" style={{ width: `${x(first)}%` }}>
            {(choices.leastSafeCents ?? 0) > 0 && <span>Not to be driven</span>}
          </div>
        )}
        <svg viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
          <path className="good" d={`${stairs(rungs, x, y, x(end))}V100H${x(first)}Z`} />
          <path className="tread" d={stairs(rungs, x, y, x(end))} />
        </svg>
        {value !== null && value <= end && (
          <i className="worth" style={{ left: `${x(value)}%` }}>
            <b>vehicle’s value</b>
          </i>
        )}
        {budget !== null && budget <= end && <i className="now-sum" style={{ left: `${x(budget)}%` }} />}
        <i className="knob" style={{ left: `${x(rung.priceCents)}%`, top: `${y(rung.benefit)}%` }} />
      </div>
      <div className="stairs-axis" aria-hidden="true">
        {ticks.map((tick) => (
          <span key={tick} className="num" style={{ left: `${x(tick)}%` }}>
            {money.short(tick)}
          </span>
        ))}
      </div>
    </div>
  );
}

type Scale = (of: number) => number;

/** The line of the treads and risers, from the foot of the first step to the right end. */
function stairs(rungs: readonly Rung[], x: Scale, y: Scale, end: number): string {
  const risers = rungs.map((rung) => `H${x(rung.priceCents)}V${y(rung.benefit)}`).join('');
  return `M${x(rungs[0]?.priceCents ?? 0)} 100${risers}H${end}`;
}
