const NUMBERS = [
  ...[
    'No',
    'One',
    'Two',
    'Three',
    'Four',
    'Five',
    'Six',
    'Seven',
    'Eight',
    'Nine',
    'Ten',
    'Eleven',
    'Twelve',
  ],
];

/** What is left until `until`, as somebody says it; both in epoch milliseconds. Rounded down: it never promises too much. */
export function leftWords(until: number, now: number): string {
  const seconds = Math.floor((until - now) / 1000);
  if (seconds <= 0) return 'The time is over.';
  if (seconds < 60) return 'Less than a minute left.';
  const minutes = Math.floor(seconds / 60);
  return `${NUMBERS[minutes] ?? String(minutes)} ${minutes === 1 ? 'minute' : 'minutes'} left.`;
}

/** Minutes at which it is said aloud; in between it is only shown. */
const SAID = [5, 2, 1];

/** What is read out when the clock passes from `before` to `now`; '' when nothing is. */
export function saidWords(until: number, before: number, now: number): string {
  if (now >= until) return before < until ? 'The time is over: the place is free for everybody again.' : '';
  const passed = SAID.some((minutes) => before < until - minutes * 60_000 && until - minutes * 60_000 <= now);
  return passed ? leftWords(until, now - 1000) : '';
}
