import type { SpecialToolResponse } from '../dto/special-tool.response.js';
import type { SpecialToolRow } from './special-tool.entity.js';

export function specialToolResponse(row: SpecialToolRow): SpecialToolResponse {
  return { id: row.id, name: row.name, units: row.units, version: row.version };
}
