import type { LabourRateResponse } from '../dto/labour-rate.response.js';
import type { LabourRateRow } from './labour-rate.entity.js';

export function labourRateResponse(row: LabourRateRow): LabourRateResponse {
  return {
    id: row.id,
    name: row.name,
    centsPerHour: row.centsPerHour,
    isDefault: row.isDefault,
    version: row.version,
  };
}
