import type { PlanChange, PlanRun, RunPlace, RunPromise } from '../api/plan-types.js';
import { type Wall, changeWords, moment, placeTimes, said, span } from './words.js';

/** Which promises a plan breaks that held before, and which it keeps again. */
export function PromiseChanges({
  promises,
  wall,
}: {
  readonly promises: PlanRun['promises'];
  readonly wall: Wall;
}) {
  const { broken, kept } = promises;
  if (broken.length + kept.length === 0) return null;
  return (
    <div className="promise-changes">
      {broken.length > 0 && (
        <p>
          <b>No longer kept:</b> {broken.map((one) => promiseWords(one, wall)).join('; ')}.
        </p>
      )}
      {kept.length > 0 && (
        <p>
          <b>Kept again:</b> {kept.map((one) => promiseWords(one, wall)).join('; ')}.
        </p>
      )}
    </div>
  );
}

function promiseWords(one: RunPromise, wall: Wall): string {
  const name =
    one.repairOrderNumber === null
      ? 'a reservation'
      : `repair order ${one.repairOrderNumber}${one.vehicleLabel === null ? '' : `, ${one.vehicleLabel}`}`;
  const promised = `promised ${moment(one.promisedAt, wall)}`;
  if (one.readyAt === null) return `${name}, ${promised}, ready at no known time`;
  return one.minutesLate > 0
    ? `${name}, ${promised}, ${span(one.minutesLate)} late`
    : `${name}, ${promised}, ready ${moment(one.readyAt, wall)}`;
}

/** Each move with where it was and where it is, by how much, and why. */
export function ChangeList({
  changes,
  wall,
}: {
  readonly changes: readonly PlanChange[];
  readonly wall: Wall;
}) {
  return (
    <ul className="changes">
      {changes.map((change, n) => (
        <li key={change.workOrderId ?? n} className="change">
          <div className="change-what">
            <b>{change.title}</b>
            <span className="hint">
              {[
                change.workOrderNumber === null ? null : `Work order ${change.workOrderNumber}`,
                change.vehicleLabel,
                change.plate,
              ]
                .filter((words) => words !== null)
                .join(' · ')}
            </span>
          </div>
          <dl className="was-is">
            <Placed word="Was" place={change.was} change={change} wall={wall} />
            <Placed word="Is" place={change.is} change={change} wall={wall} />
          </dl>
          <div className="change-why">
            <b>{changeWords(change)}</b>
            <p>{said(change.why, wall)}</p>
          </div>
        </li>
      ))}
    </ul>
  );
}

interface PlacedProps {
  readonly word: string;
  readonly place: RunPlace | null;
  readonly change: PlanChange;
  readonly wall: Wall;
}

/** A place in a line; what is different in it stands out. */
function Placed({ word, place, change, wall }: PlacedProps) {
  const moved = change.minutesLater !== 0 || change.kind !== 'changed';
  return (
    <div className={word === 'Is' ? 'is' : 'was'}>
      <dt>{word}</dt>
      <dd>
        {place === null ? (
          'without a place'
        ) : (
          <>
            <Part isNew={moved}>{placeTimes(place, wall)}</Part>
            {place.bayName !== null && <Part isNew={change.bayChanged}>{place.bayName}</Part>}
            {place.technicianName !== null && (
              <Part isNew={change.technicianChanged}>{place.technicianName}</Part>
            )}
          </>
        )}
      </dd>
    </div>
  );
}

const Part = ({ isNew, children }: { readonly isNew: boolean; readonly children: string }) => (
  <span className={isNew ? 'differs' : undefined}>{children}</span>
);
