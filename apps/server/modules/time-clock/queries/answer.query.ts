import { DateTime } from 'luxon';
import { fail, type Failed } from '#libs/kernel';
import { whyNotAuthorised } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { timeZoneOf } from '../../work-orders/index.js';

interface Row {
  title: string;
  revisionNumber: number;
  sentAt: Date | null;
  answer: 'approved' | 'declined' | 'deferred' | null;
  answeredAt: Date | null;
}

/** The refusal to clock on a line that the owner has not agreed to, with the reason in words; 404 for no line of ours. */
export async function notAuthorised(tx: Tx, lineId: string): Promise<Failed> {
  const row = await tx.one<Row>(
    `select l.title, r.number as "revisionNumber", r.sent_at as "sentAt", d.answer, d.decided_at as "answeredAt"
       from lines l join revisions r on r.shop_id = l.shop_id and r.id = l.revision_id
       left join lateral (select answer, decided_at from decisions d where d.shop_id = l.shop_id and d.line_id = l.id
                           order by d.sequence desc limit 1) d on true
      where l.shop_id = $1 and l.id = $2`,
    [tx.shopId, lineId],
  );
  if (!row) return fail('not-found', 'There is no such line in this shop.');
  const zone = await timeZoneOf(tx);
  const shown = (at: Date | null): string | null =>
    at === null ? null : DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM-dd HH:mm');
  const { reason, detail } = whyNotAuthorised({
    ...row,
    sentAt: shown(row.sentAt),
    answeredAt: shown(row.answeredAt),
  });
  return fail('work-not-authorised', detail, {
    facts: {
      reason,
      lineId,
      revisionNumber: row.revisionNumber,
      sentAt: row.sentAt?.toISOString() ?? null,
      answer: row.answer,
      answeredAt: row.answeredAt?.toISOString() ?? null,
    },
  });
}
