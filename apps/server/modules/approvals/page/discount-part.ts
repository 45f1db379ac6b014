import type { FrozenRevision, NoCharge } from '#libs/estimate';
import type { Formats } from './formats.js';
import { html, type Html } from './html.js';
import type { OwnerLine } from './model.js';

const FREE: Readonly<Record<NoCharge, string>> = {
  warranty: 'The labour of this is free of charge: it is covered by warranty.',
  goodwill: 'The labour of this is free of charge, as a courtesy.',
  comeback: 'The labour of this is free of charge: we are doing this work again.',
};

/**
 * What a line costs less than it would, and why. Where a share is taken off the whole order too, no amount is told: what
 * is known of the line holds both.
 */
export function discountPart(
  line: Pick<OwnerLine, 'discount' | 'noCharge'> & {
    readonly alone: Pick<OwnerLine['alone'], 'discountCents'>;
  },
  formats: Formats,
  { orderDiscount }: Pick<FrozenRevision, 'orderDiscount'>,
): Html {
  const { discount, noCharge } = line;
  const isOwn = orderDiscount === undefined || orderDiscount.cents !== undefined;
  const taken = isOwn ? line.alone.discountCents : 0;
  return html`${noCharge != null && html`<p><b>${FREE[noCharge]}</b></p>`}${
    discount != null &&
    html`<p>
      <b>${discount.reason}</b>${noCharge == null && taken > 0 && html`: ${formats.money(taken)} less.`}
    </p>`
  }`;
}

/** What is taken off the whole of it. An amount is taken off once, however many lines are chosen. */
export function orderDiscountPart({ orderDiscount }: FrozenRevision, formats: Formats): Html | false {
  if (orderDiscount?.reason === undefined) return false;
  const how =
    orderDiscount.cents !== undefined
      ? `${formats.money(orderDiscount.cents)} is taken off once, from all that you say yes to together. The price of each on its own is without it.`
      : 'the prices below are with this taken off.';
  return html`<p><b>${orderDiscount.reason}</b>: ${how}</p>`;
}
