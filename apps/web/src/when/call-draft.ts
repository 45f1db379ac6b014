import { instantOf } from '../board/instant-of.js';
import type { Operation } from '../api/estimate-types.js';
import type { Guess } from './guess.js';
import type { Offer, OffersQuestion, ReserveRequest } from './when-types.js';

/** The vehicle that the call is about, where the shop knows it. */
export interface KnownVehicle {
  readonly id: string;
  readonly words: string;
  readonly customerName: string;
  readonly weightKg: number | null;
}

export type WorkDraft =
  | {
      readonly kind: 'operation';
      readonly key: number;
      readonly operation: Operation;
      /** Where it is done; '' until somebody says so. */
      readonly position: string;
    }
  | { readonly kind: 'guess'; readonly key: number; readonly guess: Guess };

/** What was said on the phone so far. */
export interface CallDraft {
  readonly vehicle: KnownVehicle | null;
  /** What was typed for the vehicle: kept for the record where the shop does not know it. */
  readonly vehicleWords: string;
  readonly weight: string;
  readonly work: readonly WorkDraft[];
  /** Days of the shop, YYYY-MM-DD; none: as soon as can be. */
  readonly days: readonly string[];
  /** By the clock on the wall; '': when the shop opens. */
  readonly time: string;
  readonly mayMove: boolean;
}

export const NEW_CALL: CallDraft = {
  ...{ vehicle: null, vehicleWords: '', weight: '', work: [], days: [], time: '', mayMove: false },
};

type Visit = Pick<OffersQuestion, 'vehicleId' | 'weightKg' | 'work'>;

/** Whether an operation is done once for the whole vehicle, wherever that is. */
export const needsPosition = ({ steps }: Operation): boolean => steps.some(({ at }) => at !== 'vehicle');

function visitOf({ vehicle, weight, work }: CallDraft): Visit {
  const kilograms = weight.trim() === '' ? undefined : Number(weight.replace(/[^\d.]/g, ''));
  return {
    ...(vehicle ? { vehicleId: vehicle.id } : {}),
    ...(kilograms === undefined ? {} : { weightKg: kilograms }),
    work: work.map((one) =>
      one.kind === 'guess'
        ? { ...one.guess }
        : {
            operationId: one.operation.id,
            ...(one.position === '' ? {} : { positions: [one.position as 'vehicle'] }),
          },
    ),
  };
}

export function questionOf(draft: CallDraft, zone: string): OffersQuestion {
  const { days, time, mayMove } = draft;
  const brought = [...days]
    .sort()
    .map((day) => (time === '' ? { day } : { at: new Date(instantOf(day, time, zone)).toISOString() }));
  return { ...visitOf(draft), ...(brought.length > 0 ? { brought } : {}), mayMove };
}

export function reserveRequestOf(question: OffersQuestion, offer: Offer): ReserveRequest {
  const { vehicleId, weightKg, work } = question;
  return {
    ...(vehicleId === undefined ? {} : { vehicleId }),
    ...(weightKg === undefined ? {} : { weightKg }),
    work,
    arrivesAt: offer.arrivesAt,
    places: offer.places.map((place) => ({
      ...{ work: place.work, bayId: place.bayId, technicianId: place.technicianId },
      ...{ startsAt: place.startsAt, endsAt: place.endsAt },
    })),
    ...(offer.moves.length > 0 ? { moves: offer.moves.map(({ id }) => id) } : {}),
  };
}
