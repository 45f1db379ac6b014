import type { KeyboardEvent } from 'react';
import type { Prices, Revision } from '../api/estimate-types.js';
import { LineTicket } from './line-ticket.js';
import type { Money } from './money.js';
import type { Chosen } from './use-chosen.js';
import type { Writing } from './writing.js';

interface ListProps {
  readonly revision: Revision;
  readonly chosen: Chosen;
  readonly prices: Prices | undefined;
  readonly money: Money;
  readonly zone: string;
  readonly onWrite: (writing: Writing) => void;
}

const STEP: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowUp: -1 };

/** Arrow keys go from tick to tick, so that one hand is enough. */
function walk(event: KeyboardEvent<HTMLElement>): void {
  if (!(event.target instanceof HTMLInputElement) || event.target.type !== 'checkbox') return;
  const ticks = [...event.currentTarget.querySelectorAll<HTMLInputElement>('.tick input')];
  const at = ticks.indexOf(event.target);
  const ends: Readonly<Record<string, number>> = { Home: 0, End: ticks.length - 1 };
  const to = ends[event.key] ?? (event.key in STEP ? at + (STEP[event.key] ?? 0) : -1);
  const next = ticks[to];
  if (at < 0 || !next) return;
  event.preventDefault();
  next.focus();
  next.closest('li')?.scrollIntoView({ block: 'nearest' });
}

export function LineList({ revision, chosen, prices, ...rest }: ListProps) {
  return (
    <ol className="line-list" onKeyDown={walk}>
      {revision.lines.map((line) => (
        <li key={line.id}>
          <LineTicket
            {...rest}
            line={line}
            siblings={revision.lines}
            isDraft={revision.state === 'draft'}
            isChosen={chosen.has(line.id)}
            priced={prices?.lines.find((one) => one.lineId === line.id)}
            onToggle={() => chosen.toggle(line.id)}
          />
        </li>
      ))}
    </ol>
  );
}
