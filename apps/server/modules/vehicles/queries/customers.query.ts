import { In, LessThan } from 'typeorm';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { encodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { CustomerRow } from '../data/customer.entity.js';
import { customerResponse } from '../data/customer.mapping.js';
import type { FindQuery } from '../dto/customer.request.js';
import type { CustomerResponse } from '../dto/customer.response.js';
import { idCursor, matchCursor } from '../search/cursors.js';
import { findMatches, inOrder, termsOf, type Match } from '../search/matches.js';

export async function customer(tx: Tx, customerId: string): Promise<Result<CustomerResponse>> {
  const row = await tx.em.findOneBy(CustomerRow, { shopId: tx.shopId, id: customerId });
  return row ? ok(customerResponse(row)) : fail('not-found', 'There is no such customer in this shop.');
}

export async function customersOf(tx: Tx, matches: readonly Match[]): Promise<CustomerResponse[]> {
  const rows = await tx.em.findBy(CustomerRow, { shopId: tx.shopId, id: In(matches.map((m) => m.id)) });
  return inOrder(matches, rows).map(customerResponse);
}

export async function findCustomers(tx: Tx, query: FindQuery): Promise<Result<Page<CustomerResponse>>> {
  const limit = limitOf(query);
  if (query.q === undefined) {
    // Ids begin with the time, so the key itself is the order of arrival.
    const before = idCursor(query.cursor);
    const rows = await tx.em.find(CustomerRow, {
      where: { shopId: tx.shopId, ...(before === undefined ? {} : { id: LessThan(before) }) },
      order: { id: 'DESC' },
      take: limit + 1,
    });
    return ok(pageOf(rows, limit, customerResponse, (row) => [row.id]));
  }
  const terms = termsOf(query.q);
  if (!terms.ok) return terms;
  const { how, rows } = await findMatches(tx, 'customers', terms.value, limit, matchCursor(query.cursor));
  const shown = rows.slice(0, limit);
  const last = rows.length > limit ? shown.at(-1) : undefined;
  return ok({
    items: await customersOf(tx, shown),
    nextCursor: last ? encodeCursor([how, last.score, last.sort, last.id]) : null,
  });
}
