import type {
  OdometerReadingResponse,
  VehicleMatchResponse,
  VehicleResponse,
} from '../dto/vehicle.response.js';
import type { OdometerReadingRow } from './odometer-reading.entity.js';
import type { VehicleRow } from './vehicle.entity.js';

export function vehicleResponse(row: VehicleRow, ownerName: string): VehicleResponse {
  return {
    id: row.id,
    customer: { id: row.customerId, displayName: ownerName },
    plate: row.plate,
    vin: row.vin,
    vinVerdict: row.vinVerdict,
    make: row.make,
    model: row.model,
    modelYear: row.modelYear,
    colour: row.colour,
    drivetrain: row.drivetrain,
    weightKg: row.weightKg,
    heightMm: row.heightMm,
    valueCents: row.valueCents,
    note: row.note,
    createdAt: row.createdAt.toISOString(),
    version: row.version,
  };
}

export function vehicleMatch(row: VehicleRow, ownerName: string): VehicleMatchResponse {
  return {
    id: row.id,
    customer: { id: row.customerId, displayName: ownerName },
    plate: row.plate,
    vin: row.vin,
    make: row.make,
    model: row.model,
    modelYear: row.modelYear,
    colour: row.colour,
  };
}

type ReadingFacts = Pick<
  OdometerReadingRow,
  'id' | 'reading' | 'unit' | 'readAt' | 'occasion' | 'repairOrderId'
>;

export function odometerReadingResponse(row: ReadingFacts): OdometerReadingResponse {
  return {
    id: row.id,
    reading: row.reading,
    unit: row.unit,
    readAt: row.readAt.toISOString(),
    occasion: row.occasion,
    repairOrderId: row.repairOrderId,
  };
}
