import { useEffect, useState } from 'react';

/** Code that is fetched after the page was drawn; null until it is there. Tried again with every new `attempt`. */
export function useLate<T>(load: () => Promise<T>, wanted: boolean, attempt: unknown): T | null {
  const [parts, setParts] = useState<{ readonly code: T } | null>(null);
  useEffect(() => {
    if (parts || !wanted) return;
    void load().then(
      (code) => setParts({ code }),
      () => undefined,
    );
  }, [load, parts, wanted, attempt]);
  return parts?.code ?? null;
}
