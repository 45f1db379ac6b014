import type { LineRow } from '../data/line.entity.js';
import type { LineDiscountEntry } from '../dto/discount.js';

type DiscountColumns = Pick<
  LineRow,
  'discountLabourPpm' | 'discountItemsPpm' | 'discountItemsCents' | 'discountReason'
>;

/** A discount of nothing is none, and needs no reason. */
export function discountColumns(discount: LineDiscountEntry | null | undefined): DiscountColumns {
  const isSome = [discount?.labourPpm, discount?.itemsPpm, discount?.itemsCents].some(
    (part) => (part ?? 0) > 0,
  );
  const given = isSome ? discount : null;
  return {
    discountLabourPpm: given?.labourPpm ?? null,
    discountItemsPpm: given?.itemsPpm ?? null,
    discountItemsCents: given?.itemsCents ?? null,
    discountReason: given?.reason ?? null,
  };
}
