import { STAGES, type Stage } from '#libs/workflow';
import { Flag, Instant, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

const UNITS = ['km', 'mi'] as const;

export class OdometerEntry {
  @Whole({ max: 3_000_000 }) reading: number;
  @OneOf(UNITS) unit: (typeof UNITS)[number];
  @Flag({
    optional: true,
    description: 'True when the reading was looked at twice although it is less than an earlier one.',
  })
  confirmed?: boolean;
}

export class OpenRepairOrderRequest {
  @Uuid() vehicleId: string;
  @Uuid({ optional: true, description: 'Who pays; the customer of the vehicle unless given.' })
  customerId?: string;
  @Text({
    max: 2000,
    description: "The customer's concern in their own words.",
    example: 'It knocks on bumps',
  })
  concern: string;
  @Nested(() => OdometerEntry) odometer: OdometerEntry;
  @Instant({
    optional: true,
    nullable: true,
    description: 'When the owner was told that the car is ready; left out: as the reservation says.',
  })
  promisedAt?: string | null;
  @Flag({ description: 'The owner wants the replaced parts back.' }) wantsPartsBack: boolean;
  @Uuid({
    optional: true,
    nullable: true,
    description:
      'The reservation that the vehicle comes on. Left out: the one that is kept for this vehicle, or for its customer, today. Null: none of them.',
  })
  reservationId?: string | null;
}

export class ChangeRepairOrderRequest {
  @Uuid({ optional: true }) customerId?: string;
  @Text({ max: 2000, optional: true }) concern?: string;
  @Instant({ optional: true, nullable: true }) promisedAt?: string | null;
  @Flag({ optional: true }) wantsPartsBack?: boolean;
}

export class PickUpRequest {
  @Nested(() => OdometerEntry, { description: 'As it reads when the vehicle leaves.' })
  odometer: OdometerEntry;
}

export class RepairOrdersQuery extends PageQuery {
  @OneOf(STAGES, { optional: true, description: 'Only those that stand here.' }) stage?: Stage;
  @OneOf(['yes', 'no'], { optional: true, description: 'yes: the vehicle is in the shop; no: it has left.' })
  here?: 'yes' | 'no';
  @Uuid({ optional: true, description: 'Only the stays of this vehicle.' }) vehicleId?: string;
}
