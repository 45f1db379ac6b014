import type { FieldFault } from '#libs/kernel';
import type { LineRow } from '../data/line.entity.js';
import type { LineResponse } from '../dto/line.response.js';
import type { LineSpread } from '../dto/spread.js';

type SpreadColumns = Pick<LineRow, 'lowHundredths' | 'highHundredths' | 'lowItemsCents' | 'highItemsCents'>;

/** A spread as it is stored: all four or none. */
export function spreadColumns(spread: LineSpread | null): SpreadColumns {
  return {
    lowHundredths: spread?.lowHundredths ?? null,
    highHundredths: spread?.highHundredths ?? null,
    lowItemsCents: spread?.lowItemsCents ?? null,
    highItemsCents: spread?.highItemsCents ?? null,
  };
}

/** The line itself lies within its spread, also after a change of its hours or items. */
export function spreadFaults({ spread, enteredHundredths, steps, items }: LineResponse): FieldFault[] {
  if (spread === null) return [];
  const hours = enteredHundredths ?? steps.reduce((sum, { hundredths }) => sum + hundredths, 0);
  const price = items.reduce(
    (sum, item) => sum + Math.round((item.quantityHundredths * item.unitPriceCents) / 100),
    0,
  );
  const faults: FieldFault[] = [];
  const note = (field: keyof LineSpread, isWrong: boolean, detail: string): void => {
    if (isWrong) faults.push({ pointer: `/spread/${field}`, detail });
  };
  const itself = { hours: `the ${hours} of the line itself`, price: `the ${price} of its items as they are` };
  note('lowHundredths', spread.lowHundredths > hours, `At most ${itself.hours}.`);
  note('highHundredths', spread.highHundredths < hours, `At least ${itself.hours}.`);
  note('lowItemsCents', spread.lowItemsCents > price, `At most ${itself.price}.`);
  note('highItemsCents', spread.highItemsCents < price, `At least ${itself.price}.`);
  return faults;
}
