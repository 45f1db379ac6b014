import { STAGES, type Stage } from '#libs/workflow';
import { Flag, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class VehicleOnOrder {
  @Uuid() id: string;
  @Text({ nullable: true }) plate: string | null;
  @Text({ nullable: true }) vin: string | null;
  @Text() make: string;
  @Text() model: string;
  @Whole({ nullable: true }) modelYear: number | null;
  @Text({ nullable: true }) colour: string | null;
  @OneOf(['combustion', 'hybrid', 'electric']) drivetrain: string;
  @Whole({ nullable: true }) weightKg: number | null;
  @Whole({ nullable: true }) heightMm: number | null;
}

export class CustomerOnOrder {
  @Uuid() id: string;
  @Text() displayName: string;
  @Text({ nullable: true }) phone: string | null;
  @Text({ nullable: true }) email: string | null;
}

export class InspectionOnOrder {
  @Uuid() id: string;
  @Text() templateName: string;
  @Text({ description: 'RFC 3339.' }) startedAt: string;
  @Text({ nullable: true }) completedAt: string | null;
}

export class RepairOrderCounts {
  @Whole() findings: number;
  @Whole({ description: 'Findings that say repair and that no line answers.' }) openFindings: number;
  @Whole() unsentLines: number;
  @Whole() undecidedLines: number;
  @Whole() decidedLines: number;
  @Whole({ description: 'Released and not withdrawn.' }) workOrders: number;
  @Whole({ description: 'Of these, not finished or not checked.' }) openWorkOrders: number;
}

/** A finding with which the car may not simply be driven, and that is not repaired yet. */
export class DrivingWarning {
  @Uuid() findingId: string;
  @Text() title: string;
  @OneOf(['Unsafe', 'Repair', 'Watch']) word: string;
  @OneOf(['to-the-shop-only', 'no']) mayDrive: string;
  @Text({ max: 400, description: 'To be said and shown as it stands.' }) warning: string;
}

/** What was kept for the vehicle before it came. */
export class ReservationOnOrder {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
}

export class RepairOrderResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @OneOf(STAGES, { description: 'Derived from what happened; never stored.' }) stage: Stage;
  @Nested(() => VehicleOnOrder) vehicle: VehicleOnOrder;
  @Nested(() => CustomerOnOrder) customer: CustomerOnOrder;
  @Text({ max: 2000 }) concern: string;
  @OneOf(['km', 'mi']) odometerUnit: string;
  @Whole() odometerIn: number;
  @Whole({ nullable: true }) odometerOut: number | null;
  @Flag() wantsPartsBack: boolean;
  @Text({ description: 'RFC 3339.' }) droppedOffAt: string;
  @Text({ nullable: true }) promisedAt: string | null;
  @Text({ nullable: true }) pickedUpAt: string | null;
  @Text() openedByName: string;
  @ListOf(() => InspectionOnOrder) inspections: InspectionOnOrder[];
  @Nested(() => ReservationOnOrder, { nullable: true, description: 'Null: it came without one.' })
  reservation: ReservationOnOrder | null;
  @Nested(() => RepairOrderCounts) counts: RepairOrderCounts;
  @ListOf(() => DrivingWarning) warnings: DrivingWarning[];
  @Whole({ min: 1 }) version: number;
}

export class RepairOrderSummaryResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @OneOf(STAGES) stage: Stage;
  @Uuid() vehicleId: string;
  @Text({ nullable: true }) plate: string | null;
  @Text() make: string;
  @Text() model: string;
  @Whole({ nullable: true }) modelYear: number | null;
  @Uuid() customerId: string;
  @Text() customerName: string;
  @Text({ max: 2000 }) concern: string;
  @Text({ description: 'RFC 3339.' }) droppedOffAt: string;
  @Text({ nullable: true }) promisedAt: string | null;
  @Text({ nullable: true }) pickedUpAt: string | null;
  @Flag({ description: 'A finding that is not repaired says that it may not be driven.' }) isUnsafe: boolean;
}
