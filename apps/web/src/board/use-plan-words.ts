import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';

/** What the plan has to say, a moment after each reading of the board; its code is fetched after the first. */
export function usePlanWords(boardNow: string | undefined): string | undefined {
  const client = useQueryClient();
  const [words, setWords] = useState<string>();
  useEffect(() => {
    if (boardNow === undefined) return;
    const timer = setTimeout(
      () =>
        void import('./plan-words.js')
          .then(({ planWords }) => planWords(client))
          .then(setWords, () => undefined),
      1000,
    );
    return () => clearTimeout(timer);
  }, [boardNow, client]);
  return words;
}
