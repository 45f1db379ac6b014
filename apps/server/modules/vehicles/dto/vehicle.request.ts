import { CentsField, Flag, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { DISTANCE_UNITS, type DistanceUnit } from '../intake/odometer.js';

export const DRIVETRAINS = ['combustion', 'hybrid', 'electric'] as const;
export type Drivetrain = (typeof DRIVETRAINS)[number];
const ACCEPTED = 'Keep the VIN although it does not check out: it was compared with the vehicle.';

export class OdometerRequest {
  @Whole({ max: 3_000_000 }) reading: number;
  @OneOf(DISTANCE_UNITS) unit: DistanceUnit;
}

export class AddVehicleRequest {
  @Uuid() customerId: string;
  @Text({ max: 20, optional: true, nullable: true }) plate?: string | null;
  @Text({ max: 40, optional: true, nullable: true, description: 'VIN or an older chassis number.' })
  vin?: string | null;
  @Flag({ optional: true, description: ACCEPTED }) vinAccepted?: boolean;
  @Text({ max: 60 }) make: string;
  @Text({ max: 80 }) model: string;
  @Whole({ min: 1885, max: 2100, optional: true, nullable: true }) modelYear?: number | null;
  @Text({ max: 40, optional: true, nullable: true }) colour?: string | null;
  @OneOf(DRIVETRAINS, { optional: true, description: 'Combustion unless given.' }) drivetrain?: Drivetrain;
  @Whole({ min: 100, max: 60_000, unit: 'kg', optional: true, nullable: true, description: 'For the lifts.' })
  weightKg?: number | null;
  @Whole({ min: 500, max: 5000, unit: 'mm', optional: true, nullable: true }) heightMm?: number | null;
  @CentsField({ optional: true, nullable: true, description: 'What the vehicle is worth, if known.' })
  valueCents?: number | null;
  @Text({ max: 2000, optional: true, nullable: true }) note?: string | null;
  @Nested(() => OdometerRequest, { optional: true }) odometer?: OdometerRequest;
}

export class ChangeVehicleRequest {
  @Text({ max: 20, optional: true, nullable: true }) plate?: string | null;
  @Text({ max: 40, optional: true, nullable: true }) vin?: string | null;
  @Flag({ optional: true, description: ACCEPTED }) vinAccepted?: boolean;
  @Text({ max: 60, optional: true }) make?: string;
  @Text({ max: 80, optional: true }) model?: string;
  @Whole({ min: 1885, max: 2100, optional: true, nullable: true }) modelYear?: number | null;
  @Text({ max: 40, optional: true, nullable: true }) colour?: string | null;
  @OneOf(DRIVETRAINS, { optional: true }) drivetrain?: Drivetrain;
  @Whole({ min: 100, max: 60_000, unit: 'kg', optional: true, nullable: true }) weightKg?: number | null;
  @Whole({ min: 500, max: 5000, unit: 'mm', optional: true, nullable: true }) heightMm?: number | null;
  @CentsField({ optional: true, nullable: true }) valueCents?: number | null;
  @Text({ max: 2000, optional: true, nullable: true }) note?: string | null;
}

export class RecordOdometerRequest extends OdometerRequest {
  @Flag({ optional: true, description: 'The odometer really reads less than before.' }) confirmed?: boolean;
}

export class ChangeOwnerRequest {
  @Uuid() customerId: string;
}
