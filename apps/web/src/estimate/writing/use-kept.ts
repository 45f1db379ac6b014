import { useState } from 'react';

const drafts = new Map<string, unknown>();

/** What is typed into a form, kept until it is saved: closing the form, by accident too, loses nothing. */
export function useKept<T>(key: string, first: () => T): [T, (next: T) => void, () => void] {
  const [value, setValue] = useState<T>(() => (drafts.get(key) as T | undefined) ?? first());
  return [
    value,
    (next) => {
      drafts.set(key, next);
      setValue(next);
    },
    () => void drafts.delete(key),
  ];
}
