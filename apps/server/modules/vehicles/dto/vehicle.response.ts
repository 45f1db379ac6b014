import {
  CentsField,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import { DISTANCE_UNITS } from '../intake/odometer.js';
import { CustomerResponse } from './customer.response.js';
import { DRIVETRAINS } from './vehicle.request.js';

export const VIN_VERDICTS = ['valid', 'accept-unchecked', 'accept-warn', 'reject'] as const;

export class VehicleOwnerResponse {
  @Uuid() id: string;
  @Text() displayName: string;
}

export class OdometerReadingResponse {
  @Uuid() id: string;
  @Whole({ max: 3_000_000 }) reading: number;
  @OneOf(DISTANCE_UNITS) unit: string;
  @Instant() readAt: string;
  @OneOf(['drop-off', 'pick-up', 'other']) occasion: string;
  @Uuid({ nullable: true }) repairOrderId: string | null;
}

export class VehicleResponse {
  @Uuid() id: string;
  @Nested(() => VehicleOwnerResponse) customer: VehicleOwnerResponse;
  @Text({ nullable: true }) plate: string | null;
  @Text({ nullable: true }) vin: string | null;
  @OneOf(VIN_VERDICTS, {
    nullable: true,
    description: '"reject": somebody compared it with the vehicle and kept it.',
  })
  vinVerdict: string | null;
  @Text() make: string;
  @Text() model: string;
  @Whole({ nullable: true }) modelYear: number | null;
  @Text({ nullable: true }) colour: string | null;
  @OneOf(DRIVETRAINS) drivetrain: string;
  @Whole({ nullable: true, unit: 'kg' }) weightKg: number | null;
  @Whole({ nullable: true, unit: 'mm' }) heightMm: number | null;
  @CentsField({ nullable: true }) valueCents: number | null;
  @Text({ nullable: true, max: 2000 }) note: string | null;
  @Instant() createdAt: string;
  @Whole({ min: 1 }) version: number;
}

export class OwnershipResponse {
  @Uuid() customerId: string;
  @Text() displayName: string;
  @Instant() since: string;
}

export class VehicleDetailResponse extends VehicleResponse {
  @Nested(() => OdometerReadingResponse, { nullable: true, description: 'The last reading.' })
  odometer: OdometerReadingResponse | null;
  @ListOf(() => OwnershipResponse, { description: 'Newest first.' }) ownerships: OwnershipResponse[];
}

/** What a list of matches shows of a vehicle. */
export class VehicleMatchResponse {
  @Uuid() id: string;
  @Nested(() => VehicleOwnerResponse) customer: VehicleOwnerResponse;
  @Text({ nullable: true }) plate: string | null;
  @Text({ nullable: true }) vin: string | null;
  @Text() make: string;
  @Text() model: string;
  @Whole({ nullable: true }) modelYear: number | null;
  @Text({ nullable: true }) colour: string | null;
}

export class SearchResponse {
  @ListOf(() => CustomerResponse, { description: 'Best match first.' }) customers: CustomerResponse[];
  @ListOf(() => VehicleMatchResponse, { description: 'Best match first; together at most 20.' })
  vehicles: VehicleMatchResponse[];
}
