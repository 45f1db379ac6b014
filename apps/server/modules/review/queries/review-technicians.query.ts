import { bookToSeconds, cents, ok, type Result } from '#libs/kernel';
import { allocate } from '#libs/money';
import {
  compareLine,
  compareRepairOrder,
  creditBook,
  ratio,
  sumCompared,
  type SoldAndClocked,
} from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { periodOf } from '../data/period.js';
import { clockedBy, soldAndClocked } from '../data/reviewed-line.mapping.js';
import type { ReviewQuery } from '../dto/review.request.js';
import type { TechnicianReviewResponse, TechniciansReviewResponse } from '../dto/review.response.js';
import { finishedIn } from './review-lines.query.js';
import type { ReviewedLineRow } from './reviewed-lines.query.js';
import { timeInPeriod, type PersonTime } from './time-in-period.query.js';

type Share = SoldAndClocked & { readonly technicianId: string | null; readonly displayName: string };

const NOBODY = 'Nobody on the clock';

/** Each technician's part of the work that was finished in a period; together exactly what the lines say. */
export async function reviewTechnicians(
  tx: Tx,
  query: ReviewQuery,
): Promise<Result<TechniciansReviewResponse>> {
  const period = await periodOf(tx, query);
  if (!period.ok) return period;
  const rows = await finishedIn(tx, period.value);
  const times = await timeInPeriod(tx, period.value);
  const shares = rows.flatMap(sharesOf);
  const names = new Map<string | null, string>();
  for (const { technicianId, displayName } of [...times, ...shares]) names.set(technicianId, displayName);
  const people = [...names].sort(([, a], [, b]) => a.localeCompare(b, 'en'));
  return ok({
    from: query.from,
    to: query.to,
    technicians: people.map(([technicianId, displayName]) =>
      person(
        technicianId,
        displayName,
        shares.filter((share) => share.technicianId === technicianId),
        times.find((time) => time.technicianId === technicianId),
      ),
    ),
    total: compareRepairOrder(rows.map(soldAndClocked)),
  });
}

/** One line, shared out by the time that each one clocked on it; hours and money add up to the line's. */
function sharesOf(row: ReviewedLineRow): Share[] {
  const whole = soldAndClocked(row);
  const clocked = row.clocked.filter(({ seconds }) => seconds > 0);
  if (clocked.length === 0) return [{ ...whole, technicianId: null, displayName: NOBODY }];
  const credits = creditBook(whole.soldHundredths, clockedBy(row));
  const weights = clocked.map(({ seconds }) => seconds);
  const labour = allocate(whole.labourCents, weights);
  const parts = allocate(whole.partsCents, weights);
  return clocked.map(({ technicianId, displayName }, at) => ({
    technicianId,
    displayName,
    ...compareLine({
      soldHundredths: credits.get(technicianId) ?? whole.soldHundredths,
      clockedSeconds: clockedBy(row).get(technicianId) ?? whole.clockedSeconds,
      labourCents: labour[at] ?? cents(0),
      partsCents: parts[at] ?? cents(0),
    }),
  }));
}

function person(
  technicianId: string | null,
  displayName: string,
  shares: readonly Share[],
  time: PersonTime | undefined,
): TechnicianReviewResponse {
  const sum = sumCompared(shares);
  const { attendedSeconds, jobSeconds, indirectSeconds } = time ?? {
    attendedSeconds: 0,
    jobSeconds: 0,
    indirectSeconds: 0,
  };
  const attended = 'hours attended in the period';
  return {
    technicianId,
    displayName,
    comparison: compareLine(sum),
    attendedSeconds,
    jobSeconds,
    indirectSeconds,
    jobPerAttended: ratio(
      'hours clocked on work orders in the period',
      jobSeconds,
      attended,
      attendedSeconds,
    ),
    soldPerAttended: ratio(
      'book hours sold of work finished in the period',
      bookToSeconds(sum.soldHundredths),
      attended,
      attendedSeconds,
    ),
  };
}
