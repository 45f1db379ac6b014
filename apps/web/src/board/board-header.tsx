import type { FocusEvent } from 'react';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { Ways } from '../ui/ways.js';
import { dayWords, shiftDay } from './zone-time.js';

export type View = 'time' | 'list';

interface HeaderProps {
  readonly session: SignedIn;
  readonly day: string;
  readonly today: string;
  readonly onDay: (day: string) => void;
  readonly view: View;
  readonly onView: ((view: View) => void) | undefined;
  /** What nobody here should miss of the plan. */
  readonly planWords: string | undefined;
}

export function BoardHeader(props: HeaderProps) {
  const { session, day, today, onDay } = props;
  return (
    <header className={`top${props.onView && props.view === 'time' ? ' by-time' : ''}`}>
      <h1 className="house">
        {session.shop.name}
        <small>
          <span className="vh">Job board, </span>
          {dayWords(day, today)}
        </small>
      </h1>
      <nav className="days" aria-label="Day">
        <button type="button" onClick={() => onDay(shiftDay(day, -1))} aria-label="Day before">
          <Arrow back />
        </button>
        <button
          type="button"
          className="today"
          onClick={() => onDay(today)}
          aria-current={day === today ? 'date' : undefined}
        >
          Today
        </button>
        <button type="button" onClick={() => onDay(shiftDay(day, 1))} aria-label="Day after">
          <Arrow />
        </button>
      </nav>
      <details className="other-pages" onBlur={foldWhenLeft}>
        <summary>Other pages</summary>
        <nav className="ways" aria-label="Other pages">
          <Ways session={session} here="/board" />
        </nav>
      </details>
      {props.planWords !== undefined && (
        <a className="plan-says" href="/plan">
          {props.planWords}
        </a>
      )}
      {props.onView && <ViewSwitch view={props.view} onView={props.onView} />}
      <SessionTools session={session} />
    </header>
  );
}

/** Whoever goes on to something else wants to see the board again. */
function foldWhenLeft({ currentTarget, relatedTarget }: FocusEvent<HTMLDetailsElement>): void {
  if (relatedTarget && !currentTarget.contains(relatedTarget)) currentTarget.open = false;
}

function Arrow({ back = false }: { readonly back?: boolean }) {
  return (
    <svg viewBox="0 0 20 20" aria-hidden="true">
      <path
        d={back ? 'M13 3 6 10l7 7' : 'M7 3l7 7-7 7'}
        fill="none"
        stroke="currentColor"
        strokeWidth="2.6"
      />
    </svg>
  );
}

function ViewSwitch({ view, onView }: { readonly view: View; readonly onView: (view: View) => void }) {
  const words: Readonly<Record<View, string>> = { time: 'By time', list: 'As a list' };
  return (
    <fieldset className="views">
      <legend className="vh">Show the board</legend>
      {(['time', 'list'] as const).map((choice) => (
        <label key={choice}>
          <input type="radio" name="view" checked={view === choice} onChange={() => onView(choice)} />
          <span>{words[choice]}</span>
        </label>
      ))}
    </fieldset>
  );
}
