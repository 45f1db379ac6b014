import { fail, ok, type Result } from '#libs/kernel';
import type { RepairOrderFacts } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { FACTS_COLUMNS, factsOf, type FactsRow } from './facts-sql.js';

/** Everything that `stageOf` needs to know about one repair order; unknown and foreign ids are `not-found`. */
export async function repairOrderFacts(tx: Tx, repairOrderId: string): Promise<Result<RepairOrderFacts>> {
  const found = await repairOrderFactsOf(tx, [repairOrderId]);
  const facts = found.get(repairOrderId);
  return facts ? ok(facts) : fail('not-found', 'There is no such repair order in this shop.');
}

/** The same for many at once, by id; ids that the shop does not have are missing from the map. */
export async function repairOrderFactsOf(
  tx: Tx,
  repairOrderIds: readonly string[],
): Promise<Map<string, RepairOrderFacts>> {
  const rows = await tx.rows<FactsRow & { id: string }>(
    `select r.id, ${FACTS_COLUMNS} from repair_orders r where r.shop_id = $1 and r.id = any($2::uuid[])`,
    [tx.shopId, repairOrderIds],
  );
  return new Map(rows.map((row) => [row.id, factsOf(row)]));
}
