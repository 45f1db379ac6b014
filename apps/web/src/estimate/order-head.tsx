import type { ReactNode } from 'react';
import { inShopTime } from '../board/zone-time.js';
import type { Estimate, Order } from '../api/estimate-types.js';
import { MarkWithWord } from '../ui/marks.js';
import { moneyOf } from './money.js';
import { today } from './today.js';
import { stageWord } from './words.js';

interface HeadProps {
  readonly order: Order;
  readonly estimate: Estimate;
  readonly zone: string;
}

/** The repair order at a glance: who, which car, what they came for, where it stands. */
export function OrderHead({ order, estimate, zone }: HeadProps) {
  const { vehicle, customer } = order;
  const money = moneyOf(estimate.currency);
  const years = vehicle.modelYear === null ? '' : `, ${vehicle.modelYear}`;
  const unsafe = order.warnings.filter((warning) => warning.mayDrive === 'no');
  return (
    <section className="order-head" aria-labelledby="order-title">
      <div className="order-no">
        <small>Repair order</small>
        <b className="num">{order.number}</b>
      </div>
      <div className="order-face">
        <h1 id="order-title">
          {`${vehicle.make} ${vehicle.model}${years}`}
          {vehicle.plate !== null && <span className="plate">{vehicle.plate}</span>}
        </h1>
        <p className="concern">
          <span className="vh">The customer’s concern: </span>“{order.concern}”
        </p>
        {unsafe.length > 0 && (
          <p className="warned">
            <MarkWithWord mark="unsafe" /> {unsafe.map(({ title }) => title).join('; ')}. This car must not be
            driven.
          </p>
        )}
      </div>
      <dl className="facts">
        <Fact name="Customer">
          {customer.displayName}
          {customer.phone !== null && (
            <a className="num tel" href={`tel:${customer.phone}`}>
              {customer.phone}
            </a>
          )}
        </Fact>
        <Fact name="Where it stands">{stageWord[order.stage]}</Fact>
        <Fact name="Promised">
          {order.promisedAt === null
            ? 'Nothing promised yet'
            : inShopTime(order.promisedAt, zone, today(zone))}
        </Fact>
        <Fact name="Authorised so far">
          <span className="num">{money.full(estimate.authorisedCents)}</span>
          {estimate.contingentCents > 0 && (
            <small className="up-to">
              and up to <span className="num">{money.full(estimate.contingentCents)}</span> if what may happen
              happens
            </small>
          )}
        </Fact>
      </dl>
    </section>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
