import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import { call } from '../api/client.js';
import type { Estimate, Order } from '../api/estimate-types.js';
import type { ApiFault } from '../api/fault.js';
import type { LineState, Subjects } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import { type Refused, askAgain, valueOf } from './answers.js';

export interface EstimateInHand {
  readonly order: Order | undefined;
  readonly estimate: Estimate | undefined;
  readonly fault: ApiFault | null;
  readonly line: LineState;
  readonly read: () => Promise<void>;
}

/** A repair order and its estimate: read, and kept fresh by what the live line says of this repair order. */
export function useEstimate(id: string): EstimateInHand {
  const client = useQueryClient();
  const order = useQuery<Order, Refused>({
    queryKey: ['order', id],
    queryFn: ({ signal }) => valueOf(call('get', '/api/v1/repair-orders/{id}', { path: { id }, signal })),
    retry: false,
    refetchInterval: askAgain,
  });
  const estimate = useQuery<Estimate, Refused>({
    queryKey: ['estimate', id],
    queryFn: ({ signal }) =>
      valueOf(call('get', '/api/v1/repair-orders/{id}/estimate', { path: { id }, signal })),
    retry: false,
    refetchInterval: askAgain,
  });
  const read = useCallback(async () => {
    await Promise.all(['order', 'estimate'].map((key) => client.invalidateQueries({ queryKey: [key, id] })));
    // What was computed from the lines comes after them: some may be gone.
    await client.invalidateQueries({ queryKey: ['computed', id] });
  }, [client, id]);
  const matters = useCallback((subjects: Subjects) => subjects.repairOrderId === id, [id]);
  const line = useLive(estimate.data ? '' : undefined, read, matters);
  const fault = order.error ?? estimate.error;
  return {
    order: order.data,
    estimate: estimate.data,
    fault,
    line: fault?.code === 'line-lost' ? 'lost' : line,
    read,
  };
}
