import { Flag, Instant, ListOf, OneOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';

export const RESERVATION_STATES = ['held', 'taken', 'expired', 'given-back', 'used', 'not-come'] as const;
export type ReservationState = (typeof RESERVATION_STATES)[number];

export class ReservedWorkResponse {
  @Uuid() id: string;
  @Whole({ description: 'From 0.' }) work: number;
  @Uuid({ nullable: true }) operationId: string | null;
  @TextList() positions: string[];
  @Text() title: string;
  @Whole({ unit: 'hundredths of an hour' }) bookHundredths: number;
  @Whole({ unit: 'minutes' }) minutes: number;
  @Flag({ description: 'The place is kept; false: it was only wished for, or it is over.' }) isKept: boolean;
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
}

export class ReservationResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @OneOf(RESERVATION_STATES) state: ReservationState;
  @Uuid() madeBy: string;
  @Text() madeByName: string;
  @Instant() madeAt: string;
  @Instant({ nullable: true, description: 'While it is held: until then.' }) expiresAt: string | null;
  @Flag({ description: 'It was extended once; it is not a second time.' }) isExtended: boolean;
  @Instant({ nullable: true }) takenAt: string | null;
  @Instant({ nullable: true }) promisedAt: string | null;
  @Instant({
    nullable: true,
    description: 'Once it is taken: if the car has not come by then, its places are free again.',
  })
  lapsesAt: string | null;
  @Instant({ nullable: true }) releasedAt: string | null;
  @Uuid({ nullable: true }) repairOrderId: string | null;
  @Whole({ min: 1, nullable: true }) repairOrderNumber: number | null;
  @Uuid({ nullable: true }) customerId: string | null;
  @Text({ nullable: true }) customerName: string | null;
  @Text({ nullable: true }) phone: string | null;
  @Uuid({ nullable: true }) vehicleId: string | null;
  @Text({ nullable: true }) vehicleWords: string | null;
  @Whole({ nullable: true, unit: 'kg' }) weightKg: number | null;
  @Whole({ nullable: true, unit: 'mm' }) heightMm: number | null;
  @Text({ nullable: true, max: 500 }) note: string | null;
  @Instant() arrivesAt: string;
  @Instant({ description: 'As it was told: as likely before as after.' }) readyAt: string;
  @Instant({ description: 'As it was told: kept in four of five cases.' }) readyP80At: string;
  @ListOf(() => ReservedWorkResponse) work: ReservedWorkResponse[];
  @Text({ max: 1000, description: 'Where it stands, in the shop’s zone.' }) words: string;
  @Whole({ min: 1 }) version: number;
}
