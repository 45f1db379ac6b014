import type { RelatedLine } from '#libs/approval';
import type { FrozenLine } from '#libs/estimate';

/** A line as it was sent, as far as it hangs on others; one that was sent before there were relations stands by itself. */
export function relatedLine({ id, title, choice }: FrozenLine): RelatedLine {
  return { id, title, requires: choice?.requires ?? [], excludes: choice?.excludes ?? [] };
}
