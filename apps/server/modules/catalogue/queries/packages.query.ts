import { fail, ok, type Result } from '#libs/kernel';
import { containsPattern } from '../../../platform/database/contains-pattern.js';
import type { Tx } from '../../../platform/database/tx.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import type { PackageResponse, PackagesQuery } from '../dto/package.js';

const SELECT = `select p.id, p.name, p.hundredths, p.is_active as "isActive", p.version,
    coalesce((select json_agg(json_build_object('operationId', o.id, 'code', o.code, 'name', o.name, 'positions', po.positions)
                              order by po.sequence)
                from package_operations po join operations o on o.shop_id = po.shop_id and o.id = po.operation_id
               where po.shop_id = p.shop_id and po.package_id = p.id), '[]') as operations
  from packages p where p.shop_id = $1`;

export async function packagesPage(
  tx: Tx,
  query: PackagesQuery,
): Promise<Result<{ items: PackageResponse[]; nextCursor: string | null }>> {
  const after = decodeCursor(query.cursor, 1)?.[0];
  const limit = limitOf(query);
  const rows = await tx.rows<PackageResponse>(
    `${SELECT} and ($2::text is null or p.name ilike $2) and ($3::text is null or p.name > $3)
        and (p.is_active or $5) order by p.name limit $4`,
    [
      tx.shopId,
      query.q === undefined ? null : containsPattern(query.q),
      after === undefined ? null : String(after),
      limit + 1,
      query.all === 'yes',
    ],
  );
  return ok(
    pageOf(
      rows,
      limit,
      (row) => row,
      (row) => [row.name],
    ),
  );
}

export async function packageById(tx: Tx, packageId: string): Promise<Result<PackageResponse>> {
  const row = await tx.one<PackageResponse>(`${SELECT} and p.id = $2`, [tx.shopId, packageId]);
  return row ? ok(row) : fail('not-found', 'There is no such package in this shop.');
}

/** The packages that drafts are priced by, in order of their names. */
export function packagesInUse(tx: Tx): Promise<PackageResponse[]> {
  return tx.rows<PackageResponse>(`${SELECT} and p.is_active order by p.name`, [tx.shopId]);
}
