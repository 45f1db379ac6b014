import type { Board, Ticket } from '../api/types.js';
import type { Place } from './axis.js';

/** Moves that the server has not answered yet, by work order: shown at once, taken back when refused. */
export type Moves = ReadonlyMap<string, Place>;

export function withMoves(board: Board, moves: Moves): Board {
  if (moves.size === 0) return board;
  return {
    ...board,
    tickets: board.tickets.map((ticket) => {
      const place = moves.get(ticket.workOrderId);
      return place && ticket.assignment
        ? { ...ticket, assignment: movedTo(ticket.assignment, place) }
        : ticket;
    }),
  };
}

const movedTo = (
  assignment: NonNullable<Ticket['assignment']>,
  place: Place,
): NonNullable<Ticket['assignment']> => ({
  ...assignment,
  bayId: place.bayId,
  startsAt: new Date(place.startsAt).toISOString(),
  endsAt: new Date(place.endsAt).toISOString(),
});
