import type { ReactNode } from 'react';
import type { Look } from './look-word.js';

const line = { fill: 'none', stroke: 'currentColor' } as const;

/** The sign of a job state on a ticket's stub. The word is always there as well, at least for a screen reader. */
const signs: Readonly<Record<Look, ReactNode>> = {
  planned: <circle cx="10" cy="10" r="7.5" {...line} strokeWidth="2" strokeDasharray="3 2.9" />,
  clocked: (
    <>
      <circle cx="10" cy="10" r="8" {...line} strokeWidth="2.4" />
      <path d="M10 5.2V10l3.4 2.6" {...line} strokeWidth="2.4" />
    </>
  ),
  'past-book': <path d="M2 3v14M2 10h13M11 5.5 15.5 10 11 14.5" {...line} strokeWidth="2.6" />,
  paused: (
    <>
      <circle cx="10" cy="10" r="8" {...line} strokeWidth="2.4" />
      <path d="M7.7 6.5v7M12.3 6.5v7" {...line} strokeWidth="2.2" />
    </>
  ),
  // A wheel with a chock under it.
  held: (
    <>
      <circle cx="8" cy="8.6" r="6.6" {...line} strokeWidth="2.4" />
      <circle cx="8" cy="8.6" r="1.6" fill="currentColor" />
      <path d="M19.5 17.5H9.8l6.2-7.2z" fill="currentColor" />
      <path d="M1 17.5h18" {...line} strokeWidth="1.8" />
    </>
  ),
  done: (
    <>
      <path d="M10 1.5 17.4 5.75v8.5L10 18.5 2.6 14.25v-8.5z" {...line} strokeWidth="1.8" />
      <path d="M10 10.5 20 .5" {...line} strokeWidth="3.6" />
    </>
  ),
};

export function LookSign({ look }: { readonly look: Look }) {
  return (
    <svg className="sign" viewBox="0 0 20 20" aria-hidden="true">
      {signs[look]}
    </svg>
  );
}
