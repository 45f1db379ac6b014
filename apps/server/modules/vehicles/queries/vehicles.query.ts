import { In, LessThan } from 'typeorm';
import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { encodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { CustomerRow } from '../data/customer.entity.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import { vehicleMatch, vehicleResponse } from '../data/vehicle.mapping.js';
import type { FindQuery } from '../dto/customer.request.js';
import type { VehicleMatchResponse, VehicleResponse } from '../dto/vehicle.response.js';
import { idCursor, matchCursor } from '../search/cursors.js';
import { findMatches, inOrder, termsOf, type Match } from '../search/matches.js';

async function ownerNames(tx: Tx, vehicles: readonly VehicleRow[]): Promise<(row: VehicleRow) => string> {
  const ids = [...new Set(vehicles.map((vehicle) => vehicle.customerId))];
  const rows = await tx.em.find(CustomerRow, {
    select: { id: true, displayName: true },
    where: { shopId: tx.shopId, id: In(ids) },
  });
  const names = new Map(rows.map((row) => [row.id, row.displayName]));
  return (row) => names.get(row.customerId) ?? '';
}

async function rowsOf(tx: Tx, matches: readonly Match[]): Promise<VehicleRow[]> {
  const rows = await tx.em.findBy(VehicleRow, { shopId: tx.shopId, id: In(matches.map((m) => m.id)) });
  return inOrder(matches, rows);
}

export async function vehicleMatches(tx: Tx, matches: readonly Match[]): Promise<VehicleMatchResponse[]> {
  const rows = await rowsOf(tx, matches);
  const nameOf = await ownerNames(tx, rows);
  return rows.map((row) => vehicleMatch(row, nameOf(row)));
}

export async function findVehicles(tx: Tx, query: FindQuery): Promise<Result<Page<VehicleResponse>>> {
  const limit = limitOf(query);
  if (query.q === undefined) {
    const before = idCursor(query.cursor);
    const rows = await tx.em.find(VehicleRow, {
      where: { shopId: tx.shopId, ...(before === undefined ? {} : { id: LessThan(before) }) },
      order: { id: 'DESC' },
      take: limit + 1,
    });
    const nameOf = await ownerNames(tx, rows);
    return ok(
      pageOf(
        rows,
        limit,
        (row) => vehicleResponse(row, nameOf(row)),
        (row) => [row.id],
      ),
    );
  }
  const terms = termsOf(query.q);
  if (!terms.ok) return terms;
  const { how, rows } = await findMatches(tx, 'vehicles', terms.value, limit, matchCursor(query.cursor));
  const shown = rows.slice(0, limit);
  const last = rows.length > limit ? shown.at(-1) : undefined;
  const vehicles = await rowsOf(tx, shown);
  const nameOf = await ownerNames(tx, vehicles);
  return ok({
    items: vehicles.map((row) => vehicleResponse(row, nameOf(row))),
    nextCursor: last ? encodeCursor([how, last.score, last.sort, last.id]) : null,
  });
}
