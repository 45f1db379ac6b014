import type { Board } from '../api/types.js';
import { type Axis, percent } from './axis.js';
import { clockTime } from './zone-time.js';

type Reserved = Board['reserved'][number];

const inBay = (board: Board, bayId: string): readonly Reserved[] =>
  board.reserved.filter((place) => place.bayId === bayId);

/** Places of a bay that are kept for cars that may come: nobody's work yet, and not to be moved here. */
export function ReservedInLane({
  board,
  bayId,
  axis,
}: {
  readonly board: Board;
  readonly bayId: string;
  readonly axis: Axis;
}) {
  return inBay(board, bayId).map((place) => {
    const left = Math.max(0, percent(axis, Date.parse(place.startsAt)));
    const right = Math.min(100, percent(axis, Date.parse(place.endsAt)));
    return (
      <p
        key={`${place.reservationId} ${place.startsAt}`}
        className="reserved"
        title={place.words}
        style={{ left: `${left}%`, width: `${Math.max(0, right - left)}%` }}
      >
        <b>{place.words}</b>
        <span>{place.technicianName}</span>
      </p>
    );
  });
}

export function ReservedRows({ board, bayId }: { readonly board: Board; readonly bayId: string }) {
  return inBay(board, bayId).map((place) => (
    <p key={`${place.reservationId} ${place.startsAt}`} className="reserved-row">
      <span className="num">
        {clockTime(Date.parse(place.startsAt), board.timeZone)}–
        {clockTime(Date.parse(place.endsAt), board.timeZone)}
      </span>{' '}
      {place.words}, {place.technicianName}
    </p>
  ));
}
