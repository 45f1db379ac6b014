import type { LatePromise, Plan } from '../api/plan-types.js';
import { type Wall, lateWords, moment, reasonWords, said, span, timeOf } from './words.js';

interface LateProps {
  readonly plan: Plan;
  readonly wall: Wall;
}

/** What the page is opened for: what owners were told and will not get, the latest first. */
export function LatePromises({ plan, wall }: LateProps) {
  const { late } = plan;
  return (
    <section className="late" aria-labelledby="late-title">
      <h1 id="late-title">{lateWords(late.length)}</h1>
      <p className="as-of">
        {late.length === 0
          ? `As the plan stands at ${timeOf(plan.now, wall)}, every vehicle is ready when its owner was told.`
          : `As the plan stands at ${timeOf(plan.now, wall)}, the latest first. What holds each of them up is told from its last work back.`}
      </p>
      {late.length > 0 && (
        <ol className="late-list">
          {late.map((one) => (
            <li key={one.repairOrderId}>
              <LateOrder late={one} scale={scaleOf(plan)} wall={wall} />
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

/** The lengths of all rules of the page, so that one promise can be compared with another. */
interface Scale {
  readonly from: number;
  readonly to: number;
}

function scaleOf({ now, late }: Plan): Scale {
  const at = [now, ...late.flatMap(({ promisedAt, readyAt }) => [promisedAt, readyAt ?? promisedAt])];
  const times = at.map((instant) => Date.parse(instant));
  return { from: Math.min(...times), to: Math.max(...times, Math.min(...times) + 3_600_000) };
}

const howLate = ({ readyAt, minutesLate }: LatePromise): string =>
  readyAt === null
    ? minutesLate > 0
      ? `At least ${span(minutesLate)} late`
      : 'Nobody knows how late'
    : `${span(minutesLate)} late`;

interface OrderProps {
  readonly late: LatePromise;
  readonly scale: Scale;
  readonly wall: Wall;
}

function LateOrder({ late, scale, wall }: OrderProps) {
  const { number, vehicle, promisedAt, readyAt, steps } = late;
  const title = `late-${late.repairOrderId}`;
  return (
    <article className="late-order" aria-labelledby={title}>
      <p className="late-no">
        <small>Repair order</small>
        <b className="num">{number}</b>
      </p>
      <div className="late-face">
        <h2 id={title}>
          {vehicle.label}
          {vehicle.plate !== null && <span className="plate">{vehicle.plate}</span>}
        </h2>
        <p className="how-late">{howLate(late)}</p>
        <PromiseRule late={late} scale={scale} />
        <dl className="late-times">
          <div>
            <dt>Promised</dt>
            <dd>{moment(promisedAt, wall)}</dd>
          </div>
          <div>
            <dt>Ready by the plan</dt>
            <dd>{readyAt === null ? 'not known: some of its work has no place' : moment(readyAt, wall)}</dd>
          </div>
        </dl>
      </div>
      <ol className="chain" aria-label={`What holds repair order ${number} up, from its last work back`}>
        {steps.map((step, n) => (
          <li key={`${step.workOrder} ${n}`}>
            <b>{step.workOrder}</b>
            <p>{reasonWords(step.words, step.until, wall)}</p>
            {step.remedy !== null && (
              <p className="frees">
                <i>What would free it:</i> {said(step.remedy, wall)}
              </p>
            )}
          </li>
        ))}
      </ol>
    </article>
  );
}

/** Time up to the promise as a plain rule, what runs past it ribbed; open to the right where no end is known. */
function PromiseRule({ late, scale }: Omit<OrderProps, 'wall'>) {
  const share = (instant: string): number =>
    ((Date.parse(instant) - scale.from) / (scale.to - scale.from)) * 100;
  const promised = share(late.promisedAt);
  const ready = late.readyAt === null ? 100 : share(late.readyAt);
  return (
    <div className="promise-rule" aria-hidden="true">
      <i className="until-promise" style={{ width: `${promised}%` }} />
      <i
        className={`past${late.readyAt === null ? ' open' : ''}`}
        style={{ left: `${promised}%`, width: `${Math.max(ready - promised, 1)}%` }}
      />
    </div>
  );
}
