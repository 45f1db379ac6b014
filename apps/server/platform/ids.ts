import { v7 } from 'uuid';

/** A new key. Version 7 (RFC 9562) starts with the time, so rows of one shop lie together in the index. */
export function newId(): string {
  return v7();
}
