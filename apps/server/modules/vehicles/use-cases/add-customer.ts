import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { CustomerRow } from '../data/customer.entity.js';
import { customerResponse } from '../data/customer.mapping.js';
import type { CustomerResponse } from '../dto/customer.response.js';
import { internationalPhone } from '../intake/phone.js';
import { shopPhone } from '../queries/shop-phone.query.js';
import { customerSearchText } from '../search/search-text.js';

export interface NewCustomer {
  readonly displayName: string;
  readonly phone?: string | null;
  readonly email?: string | null;
  readonly address?: string | null;
  readonly note?: string | null;
}

/** Two customers of one name are two customers: the search shows who is there before somebody is added. */
export async function addCustomer(tx: Tx, customer: NewCustomer): Promise<Result<CustomerResponse>> {
  const phone = customer.phone ?? null;
  const told = {
    displayName: customer.displayName,
    phone,
    phoneE164: internationalPhone(phone, await shopPhone(tx)),
    email: customer.email ?? null,
  };
  const row = tx.em.create(CustomerRow, {
    ...told,
    shopId: tx.shopId,
    id: tx.newId(),
    address: customer.address ?? null,
    note: customer.note ?? null,
    searchText: customerSearchText(told),
    version: 1,
    createdAt: tx.now,
  });
  await tx.em.insert(CustomerRow, row);
  await tx.audit('customer.add', 'customer', row.id);
  return ok(customerResponse(row));
}
