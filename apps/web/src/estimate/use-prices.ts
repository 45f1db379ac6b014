import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import { call } from '../api/client.js';
import type { Choices, Prices, Range, Revision } from '../api/estimate-types.js';
import type { ApiFault } from '../api/fault.js';
import { type Refused, askAgain, valueOf } from './answers.js';
import { useSettled } from './use-settled.js';

export interface Computed<T> {
  readonly data: T | undefined;
  readonly fault: ApiFault | null;
  /** What is shown still answers the question before. */
  readonly behind: boolean;
  readonly again: () => void;
}

interface Asked<T> {
  readonly key: readonly unknown[];
  readonly ask: (signal: AbortSignal) => Promise<T>;
  readonly enabled?: boolean;
  readonly behind?: boolean;
}

/**
 * Something that the server computes and does not store. The question is the key, so that the last question's answer
 * is shown whichever comes first; what was shown before stays until then.
 */
function useComputed<T>(
  orderId: string,
  { key, ask, enabled = true, behind = false }: Asked<T>,
): Computed<T> {
  const query = useQuery<T, Refused>({
    queryKey: ['computed', orderId, ...key],
    queryFn: ({ signal }) => ask(signal),
    placeholderData: keepPreviousData,
    retry: false,
    refetchInterval: askAgain,
    staleTime: Infinity,
    enabled,
  });
  return {
    data: query.data,
    fault: query.error,
    behind: behind || query.isPlaceholderData,
    again: () => void query.refetch(),
  };
}

const TICK_MS = 120;
const TYPE_MS = 350;

/** What the ticked lines cost together, soon after a tick. */
export function usePrices(revision: Revision, ids: readonly string[]): Computed<Prices> {
  const text = ids.join();
  const settled = useSettled(text, TICK_MS);
  const path = useMemo(() => ({ id: revision.id }), [revision.id]);
  const computed = useComputed<Prices>(revision.repairOrderId, {
    key: ['prices', revision.id, revision.version, settled],
    ask: (signal) =>
      valueOf(
        call('post', '/api/v1/revisions/{id}/prices', { path, body: { chosen: idsIn(settled) }, signal }),
      ),
    behind: text !== settled,
  });
  return computed.data?.revisionId === revision.id ? computed : { ...computed, data: undefined };
}

/** Between what and what the ticked lines will probably come to. */
export function useRange(revision: Revision, ids: readonly string[]): Computed<Range> {
  const text = ids.join();
  const settled = useSettled(text, TICK_MS);
  return useComputed<Range>(revision.repairOrderId, {
    key: ['range', revision.id, revision.version, settled],
    ask: (signal) =>
      valueOf(
        call('post', '/api/v1/revisions/{id}/ranges', {
          path: { id: revision.id },
          body: { chosen: idsIn(settled) },
          signal,
        }),
      ),
    enabled: settled !== '',
    behind: text !== settled,
  });
}

/** What to do with this much money, and the ladder of all sums; without a sum, the ladder alone. */
export function useChoices(revision: Revision, budgetCents: number | null): Computed<Choices> {
  const settled = useSettled(budgetCents, TYPE_MS);
  const computed = useComputed<Choices>(revision.repairOrderId, {
    key: ['choices', revision.id, revision.version, settled],
    ask: (signal) =>
      valueOf(
        call('post', '/api/v1/repair-orders/{id}/choices', {
          path: { id: revision.repairOrderId },
          body: { revisionId: revision.id, ...(settled === null ? {} : { budgetCents: settled }) },
          signal,
        }),
      ),
    enabled: revision.lines.length > 0,
    behind: budgetCents !== settled,
  });
  return computed.data?.revisionId === revision.id ? computed : { ...computed, data: undefined };
}

const idsIn = (text: string): string[] => (text === '' ? [] : text.split(','));
