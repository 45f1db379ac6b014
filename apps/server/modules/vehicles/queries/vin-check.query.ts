import { checkVin } from '#libs/vin';
import type { VinCheckQuery } from '../dto/vin-check.request.js';
import type { VinCheckResponse } from '../dto/vin-check.response.js';

/** Nothing is read: the same check that the intake makes, before anything is saved. */
export function vinCheck(query: VinCheckQuery): VinCheckResponse {
  const check = checkVin(query.vin, query.modelYear);
  return { ...check, modelYears: [...check.modelYears] };
}
