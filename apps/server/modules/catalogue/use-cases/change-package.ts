import { fail, type Result } from '#libs/kernel';
import { isPosition } from '#libs/estimate';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { PackageRow } from '../data/package.entity.js';
import type { ChangePackageRequest, PackageResponse } from '../dto/package.js';
import { packageById } from '../queries/packages.query.js';
import { checkPackage, storePackageOperations } from './package-content.js';

/** Holds for drafts at once; a revision that was sent keeps the package that it was sent with. */
export async function changePackage(
  tx: Tx,
  packageId: string,
  version: number | '*',
  request: ChangePackageRequest,
): Promise<Result<PackageResponse>> {
  const where = { shopId: tx.shopId, id: packageId };
  const row = await tx.em.findOne(PackageRow, { where, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such package in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const before = await packageById(tx, packageId);
  if (!before.ok) return before;
  const { operations, ...columns } = definedOnly(request);
  if (operations !== undefined || columns.hundredths !== undefined) {
    const content = await checkPackage(tx, {
      hundredths: columns.hundredths ?? row.hundredths,
      operations:
        operations ??
        before.value.operations.map(({ operationId, positions }) => ({
          operationId,
          positions: positions.filter(isPosition),
        })),
    });
    if (!content.ok) return content;
  }
  await tx.em.update(PackageRow, where, { ...columns, version: row.version + 1 });
  if (operations !== undefined) await storePackageOperations(tx, packageId, operations);
  await tx.audit('package.change', 'package', packageId, definedOnly(request));
  return packageById(tx, packageId);
}
