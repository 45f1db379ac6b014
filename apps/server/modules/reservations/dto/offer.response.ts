import { NO_PLACE_REASONS, type NoPlaceReason } from '#libs/plan';
import { Instant, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class OfferedToolResponse {
  @Uuid() toolId: string;
  @Text() name: string;
  @Whole({ min: 1, description: 'Which of the shop’s units of this tool.' }) unit: number;
}

export class OfferedPlaceResponse {
  @Whole({ description: 'Which entry of the work that was asked for, from 0.' }) work: number;
  @Text() title: string;
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @ListOf(() => OfferedToolResponse) tools: OfferedToolResponse[];
}

export class MovedPlaceResponse {
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
}

export class OfferedMoveResponse {
  @OneOf(['work-order', 'reservation']) kind: 'work-order' | 'reservation';
  @Uuid({ description: 'Of the work order, or of the reservation.' }) id: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @Nested(() => MovedPlaceResponse, { nullable: true }) was: MovedPlaceResponse | null;
  @Nested(() => MovedPlaceResponse, { nullable: true, description: 'Null: it would have no place.' })
  is: MovedPlaceResponse | null;
  @Text({ max: 500 }) why: string;
}

export class OfferResponse {
  @Text({ description: 'The same offer has the same key.' }) offerKey: string;
  @Instant({ description: 'When the vehicle is to be brought.' }) arrivesAt: string;
  @Instant({ description: 'When the first work begins.' }) startsAt: string;
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Instant({ description: 'As likely before as after.' }) readyAt: string;
  @Instant({ description: 'Kept in four of five cases.' }) readyP80At: string;
  @ListOf(() => OfferedPlaceResponse) places: OfferedPlaceResponse[];
  @ListOf(() => OfferedMoveResponse, { description: 'What would have to move; nothing has moved yet.' })
  moves: OfferedMoveResponse[];
  @Whole({
    min: -2_000_000_000,
    unit: 'weighted minutes',
    description: 'By which others would be later than they are planned to be now.',
  })
  latenessAddedMinutes: number;
  @Text({ max: 1000, description: 'To be read out on the phone, in the shop’s zone.' }) words: string;
}

export class NoPlaceResponse {
  @OneOf(NO_PLACE_REASONS) reason: NoPlaceReason;
  @Text({ max: 500 }) detail: string;
  @Text({ max: 500, description: 'What could be done about it.' }) remedy: string;
}

export class OffersResponse {
  @Text({ description: 'IANA zone of the shop.' }) timeZone: string;
  @Instant() askedAt: string;
  @ListOf(() => OfferResponse, { description: 'The earliest ready first.' }) offers: OfferResponse[];
  @Nested(() => NoPlaceResponse, {
    nullable: true,
    description: 'Why there is no offer; null where there is one.',
  })
  noPlace: NoPlaceResponse | null;
}
