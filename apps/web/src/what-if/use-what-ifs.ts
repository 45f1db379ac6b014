import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { AskWhatIf, WhatIf, WhatIfSummary } from '../api/what-if-types.js';
import { type Refused, askAgain, valueOf } from '../estimate/answers.js';
import type { LineState, Subjects } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import { type Floor, readFloor } from './read-floor.js';

const WHAT_IF = 'what-if';

export interface WhatIfsInHand {
  readonly floor: Floor | undefined;
  readonly asked: readonly WhatIfSummary[] | undefined;
  readonly shown: WhatIf | undefined;
  readonly fault: ApiFault | null;
  readonly line: LineState;
  readonly read: () => Promise<void>;
  /** The refusal, or null once it is asked. */
  readonly ask: (question: AskWhatIf) => Promise<{ readonly id: string } | { readonly fault: ApiFault }>;
}

/** What was asked lately and one of them in full: the one that is picked, or the newest. */
export function useWhatIfs(picked: string | null): WhatIfsInHand {
  const client = useQueryClient();
  const list = useQuery<WhatIfSummary[], Refused>({
    queryKey: [WHAT_IF, 'asked'],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/what-ifs', { query: { limit: 20 }, signal }))).items,
    retry: false,
    refetchInterval: askAgain,
  });
  const floor = useQuery<Floor, Refused>({
    queryKey: [WHAT_IF, 'floor'],
    queryFn: ({ signal }) => readFloor(signal),
    retry: false,
  });
  const id = picked ?? list.data?.[0]?.id ?? null;
  const shown = useQuery<WhatIf, Refused>({
    queryKey: [WHAT_IF, 'one', id],
    queryFn: ({ signal }) =>
      valueOf(call('get', '/api/v1/what-ifs/{id}', { path: { id: id ?? '' }, signal })),
    enabled: id !== null,
    retry: false,
    refetchInterval: askAgain,
  });
  const read = useCallback(() => client.invalidateQueries({ queryKey: [WHAT_IF] }), [client]);
  const line = useLive(list.data ? '' : undefined, read, isAboutUs);
  const ask: WhatIfsInHand['ask'] = async (question) => {
    const answer = await call('post', '/api/v1/what-ifs', { body: question });
    if (!answer.ok) return { fault: answer.fault };
    await read();
    return { id: answer.value.id };
  };
  const fault = list.error ?? floor.error ?? (id === null ? null : shown.error);
  return {
    floor: floor.data,
    asked: list.data,
    shown: id === null ? undefined : shown.data,
    ...{ fault, line: fault?.code === 'line-lost' ? 'lost' : line, read, ask },
  };
}

const isAboutUs = (subjects: Subjects): boolean => 'whatIfId' in subjects;
