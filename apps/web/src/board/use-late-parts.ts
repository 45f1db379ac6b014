import { useEffect, useState } from 'react';

type LateParts = typeof import('./late-parts.js');

/** Null until they are there. Asked for again with every new `attempt`, in case the line was lost the first time. */
export function useLateParts(attempt: unknown): LateParts | null {
  const [parts, setParts] = useState<LateParts | null>(null);
  useEffect(() => {
    if (parts) return;
    void import('./late-parts.js').then(
      (code) => setParts(code),
      () => undefined,
    );
  }, [parts, attempt]);
  return parts;
}
