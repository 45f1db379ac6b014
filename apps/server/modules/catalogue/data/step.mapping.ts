import type { StepResponse } from '../dto/step.response.js';
import type { StepRow } from './step.entity.js';

export function stepResponse(row: StepRow): StepResponse {
  return {
    id: row.id,
    code: row.code,
    name: row.name,
    hundredths: row.hundredths,
    rateId: row.rateId,
    version: row.version,
  };
}
