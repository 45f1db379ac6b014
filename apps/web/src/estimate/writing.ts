import type { Contingency, Line, Revision } from '../api/estimate-types.js';

/** What is being written, each in a dialog of its own. */
export type Writing =
  | { readonly kind: 'line'; readonly line: Line | null }
  | { readonly kind: 'remove-line'; readonly line: Line }
  | { readonly kind: 'contingency'; readonly line: Line; readonly contingency: Contingency | null }
  | { readonly kind: 'order-discount'; readonly revision: Revision }
  | { readonly kind: 'value' }
  | { readonly kind: 'send'; readonly revision: Revision }
  | { readonly kind: 'link'; readonly revision: Revision };

/** Said at the foot of the page, and read out. */
export type Say = (words: string, refused?: boolean) => void;
