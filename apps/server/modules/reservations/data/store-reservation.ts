import type { Tx } from '../../../platform/database/tx.js';
import type { Place } from '../../scheduling/index.js';
import type { AskedVisit, AskedWork } from './asked-visit.js';
import { ReservationOperationRow } from './reservation-operation.entity.js';
import { ReservationOperationToolRow } from './reservation-operation-tool.entity.js';
import { ReservationRow } from './reservation.entity.js';

/** A piece of work with the place that was offered for it. */
export interface WorkToStore extends AskedWork, Place {
  readonly id: string;
  readonly sequence: number;
  readonly minutes: number;
  readonly minutesP80: number;
  readonly toolIds: readonly string[];
}

export interface HeldTimes {
  readonly arrivesAt: Date;
  readonly readyAt: Date;
  readonly readyP80At: Date;
  readonly expiresAt: Date;
  readonly note: string | null;
}

const FIRST_NUMBER = 1;

export async function storeReservation(
  tx: Tx,
  visit: AskedVisit,
  work: readonly WorkToStore[],
  times: HeldTimes,
): Promise<string> {
  const id = tx.newId();
  await tx.em.insert(ReservationRow, {
    ...{ shopId: tx.shopId, id, number: await tx.nextNumber('reservation', FIRST_NUMBER) },
    ...{ madeBy: tx.staffId, madeAt: tx.now, ...times },
    ...{ vehicleId: visit.vehicleId, customerId: visit.customerId },
    ...{ weightKg: visit.weightKg, heightMm: visit.heightMm, version: 1 },
  });
  await tx.em.insert(
    ReservationOperationRow,
    work.map((one) => ({
      ...{ shopId: tx.shopId, id: one.id, reservationId: id, sequence: one.sequence },
      ...{ operationId: one.operationId, positions: [...one.positions], title: one.title },
      ...{ bookHundredths: one.hundredths, minutes: one.minutes, minutesP80: one.minutesP80 },
      ...{ needsLift: one.needsLift, bayKinds: [...one.bayKinds], skills: [...one.skills] },
      ...{ isAfterPrevious: one.isAfterPrevious, bayId: one.bayId, technicianId: one.technicianId },
      ...{ startsAt: one.startsAt, endsAt: one.endsAt },
    })),
  );
  await tx.em.insert(
    ReservationOperationToolRow,
    work.flatMap((one) =>
      one.toolIds.map((toolId) => ({ shopId: tx.shopId, reservationOperationId: one.id, toolId })),
    ),
  );
  return id;
}
