import { IANAZone } from 'luxon';
import type { FieldFault } from '#libs/kernel';

interface ShopSettingsToCheck {
  readonly timeZone: string;
  readonly currency: string;
  readonly dayStartsMinute: number;
  readonly dayEndsMinute: number;
  readonly suppliesFloorCents: number;
  readonly suppliesCapCents: number | null;
}

/** What the settings must mean together; each alone has the right form already. */
export function shopFaults(shop: ShopSettingsToCheck): FieldFault[] {
  const faults: FieldFault[] = [];
  if (!IANAZone.isValidZone(shop.timeZone))
    faults.push({
      pointer: '/timeZone',
      detail: 'Give a zone of the IANA database, such as America/New_York.',
    });
  if (!hasCents(shop.currency))
    faults.push({
      pointer: '/currency',
      detail: 'Give an ISO 4217 code of a currency that has cents, such as USD.',
    });
  if (shop.dayEndsMinute <= shop.dayStartsMinute)
    faults.push({ pointer: '/dayEndsMinute', detail: 'The day ends after it starts.' });
  if (shop.suppliesCapCents !== null && shop.suppliesCapCents < shop.suppliesFloorCents)
    faults.push({ pointer: '/suppliesCapCents', detail: 'The cap is not below the floor.' });
  return faults;
}

/** Amounts are whole hundredths everywhere, so a currency with none or three decimals would be wrong by a factor. */
function hasCents(currency: string): boolean {
  if (!Intl.supportedValuesOf('currency').includes(currency)) return false;
  const format = new Intl.NumberFormat('en', { style: 'currency', currency });
  return format.resolvedOptions().maximumFractionDigits === 2;
}
