import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import { dayPeriodFaults, isWhole } from './check-description.js';
import type { WhatIfFloor } from './what-if-floor.js';

/** Ten years and more, in minutes. */
const FAR = 6_000_000;

export type FloorFault = Fault<'what-if-floor-invalid'>;

/** Everything in a floor that cannot be. */
export function checkFloor(floor: WhatIfFloor): Result<WhatIfFloor, FloorFault> {
  const fields: FieldFault[] = [];
  const say = (pointer: string, detail: string): void => void fields.push({ pointer, detail });
  const once = (things: readonly { readonly id: string }[], pointer: string): void => {
    const seen = new Set<string>();
    things.forEach(({ id }, k) => {
      if (seen.has(id)) say(`${pointer}/${k}/id`, `"${id}" stands here twice.`);
      seen.add(id);
    });
  };
  if (floor.opening.length === 0) say('/opening', 'Say when the shop is open.');
  floor.opening.forEach((period, k) => dayPeriodFaults(period, `/opening/${k}`, say));
  once(floor.technicians, '/technicians');
  once(floor.bays, '/bays');
  once(floor.tools ?? [], '/tools');
  floor.technicians.forEach(({ hours, away = [] }, i) => {
    hours.forEach((period, k) => dayPeriodFaults(period, `/technicians/${i}/hours/${k}`, say));
    away.forEach(([from, to], k) => {
      if (!isWhole(from, -FAR, FAR) || !isWhole(to, -FAR, FAR) || from >= to)
        say(
          `/technicians/${i}/away/${k}`,
          'An absence runs forward, in whole minutes from the first Monday.',
        );
    });
  });
  floor.bays.forEach(({ maxHeightMm, lift }, k) => {
    if (!isWhole(maxHeightMm ?? 0, 0, 100_000))
      say(`/bays/${k}/maxHeightMm`, 'Heights are whole millimetres.');
    if (!isWhole(lift?.capacityKg ?? 0, 0, 100_000))
      say(`/bays/${k}/lift`, 'A lift is rated in whole kilograms.');
  });
  if (fields.length === 0) return ok(floor);
  const detail = fields.map((one) => `${one.pointer}: ${one.detail}`).join(' ');
  return fail('what-if-floor-invalid', detail, { fields });
}
