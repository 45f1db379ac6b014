import type { Draft } from './draft.js';
import { FAR } from './far.js';

/** Puts a draft's operations into the order of their starts, those without a place last. */
export function sortByStart(draft: Draft): void {
  const time = (o: number): number => ((draft.start[o] ?? -1) < 0 ? FAR : (draft.start[o] ?? 0));
  const sorted = Array.from(draft.order).sort(
    (a, b) => time(a) - time(b) || (draft.position[a] ?? 0) - (draft.position[b] ?? 0),
  );
  draft.setOrder(sorted);
}
