import type { Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { PackageRow } from '../data/package.entity.js';
import type { AddPackageRequest, PackageResponse } from '../dto/package.js';
import { packageById } from '../queries/packages.query.js';
import { checkPackage, storePackageOperations } from './package-content.js';

/** A book time of the shop's own for operations that are done together. */
export async function addPackage(tx: Tx, request: AddPackageRequest): Promise<Result<PackageResponse>> {
  const content = await checkPackage(tx, request);
  if (!content.ok) return content;
  const id = tx.newId();
  const { name, hundredths, operations } = request;
  await tx.em.insert(PackageRow, { shopId: tx.shopId, id, name, hundredths, isActive: true, version: 1 });
  await storePackageOperations(tx, id, operations);
  await tx.audit('package.add', 'package', id, { name, hundredths });
  return packageById(tx, id);
}
