const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

const ISO_DATE = /^\d{4}-\d{2}-\d{2}$/;

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/**
 * An ISO date moved on by whole calendar months; a day that the month lacks becomes its last day
 * (2028-02-29 + 12 months is 2029-02-28).
 */
export function addMonths(isoDate: string, months: number): string {
  if (!ISO_DATE.test(isoDate)) throw new RangeError(`not an ISO date: ${isoDate}`);
  // A board asks this for every lift of every work order; slicing is several times faster than a match with groups.
  const counted = Number(isoDate.slice(0, 4)) * 12 + (Number(isoDate.slice(5, 7)) - 1) + months;
  const day = Number(isoDate.slice(8, 10));
  const newYear = Math.floor(counted / 12);
  const at = counted - newYear * 12;
  const longest = at === 1 && isLeap(newYear) ? 29 : (DAYS_IN_MONTH[at] ?? 31);
  return `${padded(newYear, 4)}-${padded(at + 1, 2)}-${padded(Math.min(day, longest), 2)}`;
}

function padded(value: number, width: 2 | 4): string {
  const text = String(value);
  return text.length >= width ? text : text.padStart(width, '0');
}
