const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;

/**
 * An ISO date moved on by whole calendar months; a day that the month lacks becomes its last day
 * (2028-02-29 + 12 months is 2029-02-28).
 */
export function addMonths(isoDate: string, months: number): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(isoDate);
  if (match === null) throw new RangeError(`not an ISO date: ${isoDate}`);
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const counted = year * 12 + (month - 1) + months;
  const newYear = Math.floor(counted / 12);
  const at = counted - newYear * 12;
  const longest = at === 1 && isLeap(newYear) ? 29 : (DAYS_IN_MONTH[at] ?? 31);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${String(newYear).padStart(4, '0')}-${two(at + 1)}-${two(Math.min(day, longest))}`;
}
