import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import { type Refused, askAgain, valueOf } from '../estimate/answers.js';
import type { LineState } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import type { Calendar, Floor } from './types.js';

export interface CalendarInHand {
  readonly calendar: Calendar | undefined;
  readonly floor: Floor | undefined;
  readonly fault: ApiFault | null;
  readonly line: LineState;
  readonly read: () => Promise<void>;
}

/** What keeps people, bays and tools away in a stretch of days, and who they are: read, and kept fresh by the live line. */
export function useCalendar(from: string, to: string): CalendarInHand {
  const client = useQueryClient();
  const calendar = useQuery<Calendar, Refused>({
    queryKey: ['calendar', from, to],
    queryFn: ({ signal }) => valueOf(call('get', '/api/v1/calendar', { query: { from, to }, signal })),
    placeholderData: (before) => before,
    retry: false,
    refetchInterval: askAgain,
  });
  const floor = useQuery<Floor, Refused>({
    queryKey: ['floor'],
    queryFn: async ({ signal }) => {
      const [technicians, bays, tools] = await Promise.all([
        valueOf(call('get', '/api/v1/technicians', { signal })),
        valueOf(call('get', '/api/v1/bays', { signal })),
        valueOf(call('get', '/api/v1/special-tools', { signal })),
      ]);
      return { technicians: technicians.items, bays: bays.items, tools: tools.items };
    },
    retry: false,
    refetchInterval: askAgain,
  });
  const read = useCallback(async () => {
    await Promise.all(['calendar', 'floor'].map((key) => client.invalidateQueries({ queryKey: [key] })));
  }, [client]);
  const line = useLive(calendar.data ? '' : undefined, read);
  const fault = calendar.error ?? floor.error;
  return {
    calendar: calendar.data,
    floor: floor.data,
    fault,
    line: fault?.code === 'line-lost' ? 'lost' : line,
    read,
  };
}
