import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

export interface KnownTool {
  readonly id: string;
  readonly name: string;
  readonly units: number;
}

/** Special tools by id; one that this shop does not have is `not-found`. */
export async function toolsOf(tx: Tx, ids: readonly string[]): Promise<Result<Map<string, KnownTool>>> {
  const rows = await tx.rows<KnownTool>(
    'select id, name, units from special_tools where shop_id = $1 and id = any ($2::uuid[])',
    [tx.shopId, ids],
  );
  const found = new Map(rows.map((row) => [row.id, row]));
  const unknown = [...new Set(ids.map((id) => id.toLowerCase()))].filter((id) => !found.has(id));
  return unknown.length === 0
    ? ok(found)
    : fail('not-found', 'Some of these special tools are not in this shop.', { facts: { unknown } });
}
