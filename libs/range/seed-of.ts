import { hashText } from './hash-text.js';

/** A seed that belongs to an id, so that the same revision always gets the same range. */
export function seedOf(id: string): number {
  return hashText(id);
}
