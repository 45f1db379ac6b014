import { Instant, ListOf, OneOf, Text, Uuid, UuidList, Whole } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';
import { AskedVisitRequest } from './offer.request.js';

export class ChosenPlaceRequest {
  @Whole({ description: 'Which entry of the work, from 0.' }) work: number;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
}

/** The question again, with the places of the offer that was chosen: all of it is checked afresh. */
export class ReserveRequest extends AskedVisitRequest {
  @Instant({ description: 'When the vehicle is to be brought, as the offer said.' }) arrivesAt: string;
  @ListOf(() => ChosenPlaceRequest, { max: 12, description: 'One for each entry of the work.' })
  places: ChosenPlaceRequest[];
  @UuidList({
    max: 200,
    optional: true,
    description:
      'Work orders and reservations that the offer moves. They stay where they are until the reservation is taken.',
  })
  moves?: string[];
  @Text({ max: 500, optional: true }) note?: string;
}

export class TakeReservationRequest {
  @Uuid({ optional: true, description: 'A customer of this shop; else name and phone.' }) customerId?: string;
  @Text({ max: 120, optional: true }) customerName?: string;
  @Text({ min: 3, max: 40, optional: true }) phone?: string;
  @Uuid({ optional: true }) vehicleId?: string;
  @Text({ max: 120, optional: true, description: 'The vehicle in their own words, where it is not known.' })
  vehicleWords?: string;
  @Instant({
    optional: true,
    description: 'When it was promised; unless said, the time that is kept in four of five cases.',
  })
  promisedAt?: string;
  @Text({ max: 500, optional: true }) note?: string;
}

export class ExtendReservationRequest {
  @Whole({
    min: 1,
    max: 120,
    optional: true,
    unit: 'minutes',
    description: 'From now; the usual unless said.',
  })
  minutes?: number;
}

export class UseReservationRequest {
  @Uuid({ description: 'The repair order that was opened for the vehicle.' }) repairOrderId: string;
}

export const RESERVATION_LISTS = ['open', 'arriving-today'] as const;

export class ReservationsQuery extends PageQuery {
  @OneOf(RESERVATION_LISTS, {
    optional: true,
    description: 'open: held or taken (as usual). arriving-today: taken, and to be brought today.',
  })
  list?: (typeof RESERVATION_LISTS)[number];
}
