import type { KeyboardEvent } from 'react';

/** Ctrl + Enter sends a form from any of its fields, also from those where Enter begins a new line. */
export function submitKeys(event: KeyboardEvent<HTMLFormElement>): void {
  if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return;
  event.preventDefault();
  event.currentTarget.requestSubmit();
}
