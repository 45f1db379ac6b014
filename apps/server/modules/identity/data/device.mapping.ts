import type { DeviceResponse } from '../dto/device.response.js';
import type { DeviceRow } from './device.entity.js';

export function deviceResponse(row: DeviceRow): DeviceResponse {
  return {
    id: row.id,
    name: row.name,
    bayId: row.bayId,
    enrolledBy: row.enrolledBy,
    enrolledAt: row.enrolledAt.toISOString(),
    revokedAt: row.revokedAt?.toISOString() ?? null,
  };
}
