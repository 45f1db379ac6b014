import type { CustomerResponse } from '../dto/customer.response.js';
import type { CustomerRow } from './customer.entity.js';

export function customerResponse(row: CustomerRow): CustomerResponse {
  return {
    id: row.id,
    displayName: row.displayName,
    phone: row.phone,
    phoneE164: row.phoneE164,
    email: row.email,
    address: row.address,
    note: row.note,
    createdAt: row.createdAt.toISOString(),
    version: row.version,
  };
}
