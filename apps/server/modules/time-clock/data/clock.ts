import { fail, type Failed } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ClockEntryRow } from './clock-entry.entity.js';
import type { IndirectKind } from '../dto/clock.request.js';
import type { ClockEntryResponse } from '../dto/clock.response.js';

/** What time is spent on: a work order or a kind of indirect time. */
export type Activity = { readonly workOrderId: string } | { readonly indirectKind: IndirectKind };
export type EndKind = 'off' | 'switch' | 'pause';

/**
 * One act of a technician at a time: the second of two taps waits here and then sees what the first one did. Others may
 * go on naming the person in what they write, so this is no full lock. Always taken after the work order's.
 */
export async function lockTechnician(tx: Tx, technicianId: string): Promise<void> {
  await tx.rows('select id from staff where shop_id = $1 and id = $2 for no key update', [
    tx.shopId,
    technicianId,
  ]);
}

/**
 * When a new entry begins: now, or where the last one ended if that lies a moment later. An entry lasts at least one
 * millisecond, so two taps within one would otherwise overlap.
 */
export async function nextStart(tx: Tx, technicianId: string): Promise<Date> {
  const row = await tx.one<{ at: Date }>(
    `select greatest($3::timestamptz, max(ended_at)) as at from clock_entries
      where shop_id = $1 and technician_id = $2 and superseded_at is null and ended_at > $3`,
    [tx.shopId, technicianId, tx.now],
  );
  return row?.at ?? tx.now;
}

export async function beginEntry(tx: Tx, activity: Activity, startedAt: Date): Promise<string> {
  const id = tx.newId();
  const on = 'workOrderId' in activity;
  await tx.em.insert(ClockEntryRow, {
    shopId: tx.shopId,
    id,
    technicianId: tx.staffId,
    kind: on ? 'work' : 'indirect',
    workOrderId: on ? activity.workOrderId : null,
    indirectKind: on ? null : activity.indirectKind,
    startedAt,
    recordedBy: tx.staffId,
  });
  tx.announce('clock', {
    clockEntryId: id,
    technicianId: tx.staffId,
    ...(on ? { workOrderId: activity.workOrderId } : {}),
  });
  return id;
}

/** Ends the entry if nobody else has meanwhile (finishing the work order does, too). Answers with the instant. */
export async function endEntry(
  tx: Tx,
  entry: ClockEntryResponse,
  endKind: EndKind,
  reason: string | null = null,
): Promise<Date | undefined> {
  const ended = await tx.one<{ at: Date }>(
    `update clock_entries set ended_at = greatest($3::timestamptz, started_at + interval '1 millisecond'),
            end_kind = $4, end_reason = $5, ended_by = $6
      where shop_id = $1 and id = $2 and ended_at is null and superseded_at is null
      returning ended_at as at`,
    [tx.shopId, entry.id, tx.now, endKind, reason, tx.staffId],
  );
  if (!ended) return undefined;
  tx.announce('clock', {
    clockEntryId: entry.id,
    technicianId: entry.technicianId,
    ...(entry.workOrderId === null ? {} : { workOrderId: entry.workOrderId }),
  });
  return ended.at;
}

export const activityWords = ({
  workOrderNumber,
  workOrderTitle,
  indirectKind,
}: ClockEntryResponse): string =>
  workOrderNumber === null
    ? `indirect time (${indirectKind ?? 'other'})`
    : `work order ${workOrderNumber}, ${workOrderTitle ?? ''}`;

export function alreadyOn(entry: ClockEntryResponse): Failed {
  const { id, workOrderId, workOrderNumber, workOrderTitle, indirectKind, startedAt } = entry;
  return fail(
    'already-clocked-on',
    `You are on the clock on ${activityWords(entry)}. Switch, or clock off first.`,
    { facts: { entry: { id, workOrderId, workOrderNumber, workOrderTitle, indirectKind, startedAt } } },
  );
}

export const notOn = (): Failed => fail('not-clocked-on', 'Your clock is not running.');
