import type { FieldFault } from '#libs/kernel';
import { readAmount } from '../money.js';

/** Reads figures that were typed, and notes the fields of those that are none. */
export class FigureReader {
  readonly faults: FieldFault[] = [];

  /** Hundredths of whatever it is: cents of money, hundredths of an hour or of a unit. */
  hundredths(pointer: string, text: string, what: string): number {
    const read = readAmount(text);
    if (read === null) this.faults.push({ pointer, detail: `Write ${what} as a number, such as 1.5.` });
    return read ?? 0;
  }

  /** A per cent as millionths; null when nothing was written. */
  ppm(pointer: string, text: string): number | null {
    return text.trim() === '' ? null : this.hundredths(pointer, text, 'the per cent') * 100;
  }
}

/** What a form is told instead of being sent while some of its figures cannot be read. */
export const unreadable = (fields: readonly FieldFault[]) => ({
  status: 422,
  code: 'validation-failed',
  detail: 'Some figures cannot be read.',
  fields,
});
