import type { ReactNode } from 'react';

interface StatusLineProps {
  /** True while the server does not answer; the words say what is shown meanwhile. */
  readonly lost: boolean;
  readonly lostWords: string;
  /** The last thing that happened, read out when it changes. */
  readonly words: string;
  readonly refused: boolean;
  readonly children?: ReactNode;
}

/** The strip at the foot of a working page: whether the line holds, what the keys do, what just happened. */
export function StatusLine({ lost, lostWords, words, refused, children }: StatusLineProps) {
  const quiet = !lost && words === '';
  return (
    <div className={`status-line${quiet ? ' quiet' : ''}`}>
      <div role="status" className="line-state">
        {lost && (
          <span className="lost">
            <svg viewBox="0 0 20 20" aria-hidden="true">
              <path d="M1 10h6M13 10h6M8 5l4 10" fill="none" stroke="currentColor" strokeWidth="2.4" />
            </svg>
            <b>Line lost.</b> {lostWords}
          </span>
        )}
      </div>
      {children}
      <div role="status" className="say">
        {refused ? '' : words}
      </div>
      <div role="alert" className="say refused">
        {refused ? words : ''}
      </div>
    </div>
  );
}
