import { bookHundredths, cents, seconds, type Seconds } from '#libs/kernel';
import { compareLine, creditBook, type SoldAndClocked } from '#libs/review';
import type { ReviewLineResponse } from '../dto/review.response.js';
import type { ReviewedLineRow } from '../queries/reviewed-lines.query.js';

export function soldAndClocked(row: ReviewedLineRow): SoldAndClocked {
  return {
    soldHundredths: bookHundredths(row.soldHundredths),
    clockedSeconds: seconds(row.clocked.reduce((sum, one) => sum + one.seconds, 0)),
    labourCents: cents(row.labourCents),
    partsCents: cents(row.partsCents),
  };
}

export const clockedBy = (row: ReviewedLineRow): Map<string, Seconds> =>
  new Map(row.clocked.map((one) => [one.technicianId, seconds(one.seconds)]));

export function reviewLine(row: ReviewedLineRow): ReviewLineResponse {
  const credits = creditBook(bookHundredths(row.soldHundredths), clockedBy(row));
  return {
    lineId: row.lineId,
    title: row.title,
    repairOrderId: row.repairOrderId,
    repairOrderNumber: row.repairOrderNumber,
    workOrderId: row.workOrderId,
    workOrderNumber: row.workOrderNumber,
    finishedAt: row.finishedAt?.toISOString() ?? null,
    checkedAt: row.checkedAt?.toISOString() ?? null,
    totalCents: row.totalCents,
    contingencyHundredths: row.contingencyHundredths,
    contingencyCents: row.contingencyCents,
    comparison: compareLine(soldAndClocked(row)),
    technicians: row.clocked.map(({ technicianId, displayName, seconds: clockedSeconds }) => ({
      technicianId,
      displayName,
      clockedSeconds,
      creditedHundredths: credits.get(technicianId) ?? 0,
    })),
  };
}
