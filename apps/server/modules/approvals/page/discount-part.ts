import type { FrozenRevision, NoCharge } from '#libs/estimate';
import type { Formats } from './formats.js';
import { html, type Html } from './html.js';
import type { OwnerLine } from './model.js';

const FREE: Readonly<Record<NoCharge, string>> = {
  warranty: 'The labour of this is free of charge: it is covered by warranty.',
  goodwill: 'The labour of this is free of charge, as a courtesy.',
  comeback: 'The labour of this is free of charge: we are doing this work again.',
};

/** What a line costs less than it would, and why. */
export function discountPart(line: OwnerLine, formats: Formats): Html {
  const { discount, noCharge } = line;
  const taken = line.alone.discountCents;
  return html`${noCharge != null && html`<p><b>${FREE[noCharge]}</b></p>`}${
    discount != null &&
    html`<p>
      <b>${discount.reason}</b>${noCharge == null && taken > 0 && html`: ${formats.money(taken)} less.`}
    </p>`
  }`;
}

/** What is taken off the whole of it. */
export function orderDiscountPart({ orderDiscount }: FrozenRevision): Html {
  const reason = orderDiscount?.reason;
  return html`${reason !== undefined && html`<p><b>${reason}</b>: the prices below are with this taken off.</p>`}`;
}
