import { useEffect, useState } from 'react';

/** The value once it has not changed for `waitMs`: what is asked of the server while somebody ticks or types. */
export function useSettled<T>(value: T, waitMs: number): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), waitMs);
    return () => clearTimeout(timer);
  }, [value, waitMs]);
  return settled;
}
