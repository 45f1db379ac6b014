import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import { call } from '../api/client.js';
import { type Refused, askAgain, valueOf } from '../estimate/answers.js';
import type { LineState, Subjects } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import type { Reservation } from './when-types.js';

export interface Kept {
  readonly kept: readonly Reservation[];
  readonly fault: Refused | null;
  readonly line: LineState;
  readonly read: () => Promise<unknown>;
}

const KEY = ['reservations'];
const matters = (subjects: Subjects): boolean => 'reservationId' in subjects;

/** The reservations that are held or taken, read again whenever one changes anywhere in the shop. */
export function useKept(): Kept {
  const client = useQueryClient();
  const query = useQuery<readonly Reservation[], Refused>({
    queryKey: KEY,
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/reservations', { query: { limit: 50 }, signal }))).items,
    retry: false,
    refetchInterval: askAgain,
  });
  const read = useCallback(() => client.refetchQueries({ queryKey: KEY }), [client]);
  // The list has no event id of its own: '' asks for one more reading, and from then on only for news.
  const line = useLive(query.data === undefined ? undefined : '', read, matters);
  return { kept: query.data ?? [], fault: query.error, line, read };
}
