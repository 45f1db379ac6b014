import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { SearchResponse } from '../dto/vehicle.response.js';
import { findMatches, termsOf, type Matches } from '../search/matches.js';
import { customersOf } from './customers.query.js';
import { vehicleMatches } from './vehicles.query.js';

const TOGETHER = 20;

/** For the one field at the desk: customers and vehicles, half each, or more of one where the other has fewer. */
export async function search(tx: Tx, q: string): Promise<Result<SearchResponse>> {
  const terms = termsOf(q);
  if (!terms.ok) return terms;
  const found = {
    customers: await findMatches(tx, 'customers', terms.value, TOGETHER),
    vehicles: await findMatches(tx, 'vehicles', terms.value, TOGETHER),
  };
  const { customers, vehicles } = shared(found.customers, found.vehicles);
  return ok({
    customers: await customersOf(tx, customers),
    vehicles: await vehicleMatches(tx, vehicles),
  });
}

/** Similar words count only where nothing holds the words themselves, neither a customer nor a vehicle. */
function shared(
  customers: Matches,
  vehicles: Matches,
): { customers: Matches['rows']; vehicles: Matches['rows'] } {
  const isExact = [customers, vehicles].some((found) => found.how === 'words' && found.rows.length > 0);
  const rowsOf = (found: Matches): Matches['rows'] => (isExact && found.how === 'alike' ? [] : found.rows);
  const [a, b] = [rowsOf(customers), rowsOf(vehicles)];
  const half = TOGETHER / 2;
  return {
    customers: a.slice(0, Math.max(half, TOGETHER - b.length)),
    vehicles: b.slice(0, Math.max(half, TOGETHER - a.length)),
  };
}
