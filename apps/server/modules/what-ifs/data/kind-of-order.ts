import { teardownsOf } from '#libs/schedule';
import type { KindOfOrder } from '#libs/what-if';
import type { PastOrder, PastWork } from '../queries/what-if-history.query.js';

const MOST_WAIT = 20_160;
const DAY_MS = 86_400_000;

/** A repair order that came once as one that may come again. */
export function kindOfOrder(
  { id, day, promisedDay, weightKg, heightMm, work, shared }: PastOrder,
  openDays: ReadonlySet<number>,
  usualWeightKg: number,
): KindOfOrder {
  const teardown = teardownsOf(shared.map((ids) => ({ work: ids })));
  const own = new Set(work.map((one) => one.id));
  return {
    name: id,
    share: 1,
    promisedDays: promisedDay === null ? undefined : openDaysBetween(day, promisedDay, openDays),
    vehicle: { weightKg: weightKg ?? usualWeightKg, heightMm },
    operations: inOrder(work).map((one) => ({
      id: one.id,
      hours: { minutes: Math.max(1, Math.round(one.bookHundredths * 0.6)) },
      after: one.earlier.filter((earlier) => own.has(earlier)),
      bay: { lift: one.needsLift, kinds: one.bayKinds },
      skills: one.skills,
      tools: one.toolIds,
      teardown: teardown.get(one.id) ?? null,
      parts:
        one.partsAfterMinutes === null
          ? undefined
          : {
              sharePpm: 1_000_000,
              leastMinutes: Math.min(MOST_WAIT, one.partsAfterMinutes),
              mostMinutes: Math.min(MOST_WAIT, one.partsAfterMinutes),
            },
    })),
  };
}

/** What must be done earlier stands earlier. */
function inOrder(work: readonly PastWork[]): PastWork[] {
  const sorted: PastWork[] = [];
  const left = new Map(work.map((one) => [one.id, one]));
  const put = (one: PastWork): void => {
    if (!left.delete(one.id)) return;
    for (const id of one.earlier) {
      const earlier = left.get(id);
      if (earlier !== undefined) put(earlier);
    }
    sorted.push(one);
  };
  for (const one of work) put(one);
  return sorted;
}

/** Open days after `from` up to and with `to`; days are YYYY-MM-DD. */
function openDaysBetween(from: string, to: string, openDays: ReadonlySet<number>): number {
  let count = 0;
  for (let day = Date.parse(from) + DAY_MS; day <= Date.parse(to) && count < 365; day += DAY_MS)
    if (openDays.has(new Date(day).getUTCDay() || 7)) count++;
  return count;
}
