import { keepPreviousData, useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback, useMemo, useState } from 'react';
import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { Board, Ticket } from '../api/types.js';
import type { LineState } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import type { Place } from './axis.js';
import { moveAssignment } from './move-assignment.js';
import { type Moves, withMoves } from './moves.js';
import { useNow } from './use-now.js';

const readBoard = async (day: string, signal: AbortSignal): Promise<Board> => {
  const answer = await call('get', '/api/v1/board', { query: { day }, signal });
  if (!answer.ok) throw Object.assign(new Error(answer.fault.detail), answer.fault);
  return answer.value;
};

export interface BoardInHand {
  readonly board: Board | undefined;
  readonly fault: ApiFault | null;
  readonly line: LineState;
  /** The server's present in milliseconds. */
  readonly now: number;
  /** Milliseconds since the board's figures were taken. */
  readonly sinceBoard: number;
  /** The board shown is still that of another day. */
  readonly turning: boolean;
  readonly read: () => Promise<void>;
  readonly move: (ticket: Ticket, place: Place) => Promise<ApiFault | null>;
}

/** The board of a day: read, kept fresh by the live line, and with the moves that are still on their way. */
export function useBoard(day: string): BoardInHand {
  const client = useQueryClient();
  const [moves, setMoves] = useState<Moves>(new Map());
  const query = useQuery<Board, Error & ApiFault>({
    queryKey: ['board', day],
    queryFn: ({ signal }) => readBoard(day, signal),
    placeholderData: keepPreviousData,
    retry: false,
    // A backstop behind the live line; quick while the server does not answer.
    refetchInterval: (of) => (of.state.error ? 5_000 : 120_000),
  });
  const read = useCallback(() => client.invalidateQueries({ queryKey: ['board'] }), [client]);
  const line = useLive(query.data?.lastEventId, read);
  const now = useNow(query.data?.now, query.dataUpdatedAt);

  const move = useCallback(
    async (ticket: Ticket, place: Place) => {
      const shown = ticket.assignment;
      if (!shown) return null;
      setMoves((before) => new Map(before).set(ticket.workOrderId, place));
      const answer = await moveAssignment(shown, place);
      await read();
      setMoves((before) => new Map([...before].filter(([id]) => id !== ticket.workOrderId)));
      return answer.ok ? null : answer.fault;
    },
    [read],
  );

  const board = useMemo(() => query.data && withMoves(query.data, moves), [query.data, moves]);
  return {
    board,
    fault: query.error,
    line: query.error?.code === 'line-lost' ? 'lost' : line,
    now,
    sinceBoard: query.data ? now - Date.parse(query.data.now) : 0,
    turning: query.isPlaceholderData,
    read,
    move,
  };
}
