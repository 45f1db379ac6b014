import type { Board } from '../api/types.js';
import { type Axis, percent } from './axis.js';
import { clockTime } from './zone-time.js';

/** Places of a bay that are kept for cars that may come, and times in which it is out: not to be moved here. */
const inBay = ({ reserved, closures }: Board, bayId: string) =>
  [...reserved, ...closures.map((one) => ({ ...one, technicianName: '' }))].filter(
    (place) => place.bayId === bayId,
  );

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
    const right = Math.min(100, place.endsAt ? percent(axis, Date.parse(place.endsAt)) : 100);
    return (
      <p
        key={`${place.words} ${place.startsAt}`}
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
    <p key={`${place.words} ${place.startsAt}`} className="reserved-row">
      <span className="num">
        {clockTime(Date.parse(place.startsAt), board.timeZone)}–
        {place.endsAt && clockTime(Date.parse(place.endsAt), board.timeZone)}
      </span>{' '}
      {[place.words, place.technicianName].filter(Boolean).join(', ')}
    </p>
  ));
}
