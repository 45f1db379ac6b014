import type { BayResponse } from '../dto/bay.response.js';
import type { BayRow } from './bay.entity.js';

/** The fields that leave the module, one by one: a new column stays inside until it is named here. */
export function bayResponse(row: BayRow): BayResponse {
  return {
    id: row.id,
    number: row.number,
    name: row.name,
    kind: row.kind,
    liftKind: row.liftKind,
    capacityKg: row.capacityKg,
    maxHeightMm: row.maxHeightMm,
    liftInspectedOn: row.liftInspectedOn,
    outOfServiceReason: row.outOfServiceReason,
    isActive: row.isActive,
    version: row.version,
  };
}
