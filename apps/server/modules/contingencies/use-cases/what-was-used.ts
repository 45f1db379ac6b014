import { bookHundredths, fail, ok, type BookHundredths, type FieldFault, type Result } from '#libs/kernel';
import type { FrozenContingency } from '#libs/estimate';
import type { TriggerContingencyRequest } from '../dto/trigger.request.js';

export interface WhatWasUsed {
  readonly hundredths: BookHundredths;
  readonly items: FrozenContingency['items'];
}

/**
 * The hours and items that it really took, at the prices that were offered. Whoever is paid for the work may tell less than
 * was offered; more than that is for desk and manager, as all that moves money. Above the cap nobody is charged.
 */
export function whatWasUsed(
  offered: FrozenContingency,
  { hundredths = offered.hundredths, items = [] }: TriggerContingencyRequest,
  mayTellMore: boolean,
): Result<WhatWasUsed> {
  const more = 'This is more than was offered. The front desk or a manager can tell it.';
  const fields: FieldFault[] = [];
  if (!mayTellMore && hundredths > offered.hundredths) fields.push({ pointer: '/hundredths', detail: more });
  const used = new Map<string, number>();
  items.forEach(({ itemId, quantityHundredths }, at) => {
    const id = itemId.toLowerCase();
    const item = offered.items.find((one) => one.id === id);
    if (item === undefined)
      fields.push({ pointer: `/items/${at}/itemId`, detail: 'The contingency has no such item.' });
    else if (used.has(id))
      fields.push({ pointer: `/items/${at}/itemId`, detail: 'This item is told twice.' });
    else if (!mayTellMore && quantityHundredths > item.quantityHundredths)
      fields.push({ pointer: `/items/${at}/quantityHundredths`, detail: more });
    used.set(id, quantityHundredths);
  });
  if (fields.length > 0) return fail('request-invalid', 'Look at what was used.', { fields });
  return ok({
    hundredths: bookHundredths(hundredths),
    items: offered.items.flatMap((item) => {
      const quantityHundredths = used.get(item.id) ?? item.quantityHundredths;
      return quantityHundredths === 0 ? [] : [{ ...item, quantityHundredths }];
    }),
  });
}
