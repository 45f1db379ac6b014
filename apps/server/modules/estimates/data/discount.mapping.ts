import type { LineDiscount, OrderDiscount } from '#libs/estimate';
import { cents, ppm } from '#libs/kernel';
import type { DiscountResponse, OrderDiscountResponse } from '../dto/discount.js';
import type { StoredLineDiscount } from '../queries/lines.query.js';

/** As a document and the computations have it: what a discount does not say is left out. */
export function lineDiscount(stored: StoredLineDiscount): LineDiscount {
  const { labourPpm, itemsPpm, itemsCents, reason } = stored;
  return {
    ...(labourPpm === null ? {} : { labourPpm: ppm(labourPpm) }),
    ...(itemsPpm === null ? {} : { itemsPpm: ppm(itemsPpm) }),
    ...(itemsCents === null ? {} : { itemsCents: cents(itemsCents) }),
    reason,
  };
}

export interface StoredOrderDiscount {
  readonly labourPpm: number | null;
  readonly itemsPpm: number | null;
  readonly cents: number | null;
  readonly reason: string | null;
}

export function orderDiscount(stored: StoredOrderDiscount): OrderDiscount | undefined {
  const { labourPpm, itemsPpm, reason } = stored;
  if (reason === null) return undefined;
  if (stored.cents !== null) return { cents: cents(stored.cents), reason };
  return {
    ...(labourPpm === null ? {} : { labourPpm: ppm(labourPpm) }),
    ...(itemsPpm === null ? {} : { itemsPpm: ppm(itemsPpm) }),
    reason,
  };
}

export const discountResponse = (discount: LineDiscount | null | undefined): DiscountResponse | null =>
  discount == null
    ? null
    : {
        labourPpm: discount.labourPpm ?? null,
        itemsPpm: discount.itemsPpm ?? null,
        itemsCents: discount.itemsCents ?? null,
        reason: discount.reason,
      };

export const orderDiscountResponse = (discount: OrderDiscount | undefined): OrderDiscountResponse | null =>
  discount === undefined
    ? null
    : {
        labourPpm: discount.labourPpm ?? null,
        itemsPpm: discount.itemsPpm ?? null,
        cents: discount.cents ?? null,
        reason: discount.reason ?? '',
      };
