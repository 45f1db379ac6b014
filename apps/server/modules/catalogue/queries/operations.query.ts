import { fail, ok, type Result } from '#libs/kernel';
import { containsPattern } from '../../../platform/database/contains-pattern.js';
import type { Tx } from '../../../platform/database/tx.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import type { OperationsQuery } from '../dto/operation.request.js';
import type { OperationResponse } from '../dto/operation.response.js';

const SELECT = `select o.id, o.code, o.name, o.needs_lift as "needsLift", o.bay_kinds as "bayKinds", o.skills, o.cautions,
    o.is_active as "isActive", o.version,
    coalesce((select json_agg(json_build_object('toolId', t.id, 'name', t.name) order by t.name)
                from operation_tools ot join special_tools t on t.shop_id = ot.shop_id and t.id = ot.tool_id
               where ot.shop_id = o.shop_id and ot.operation_id = o.id), '[]') as tools,
    coalesce((select json_agg(json_build_object('stepId', s.id, 'code', s.code, 'name', s.name, 'at', os.at,
                                                'hundredths', s.hundredths) order by os.sequence)
                from operation_steps os join steps s on s.shop_id = os.shop_id and s.id = os.step_id
               where os.shop_id = o.shop_id and os.operation_id = o.id), '[]') as steps
  from operations o where o.shop_id = $1`;

export async function operationsPage(
  tx: Tx,
  query: OperationsQuery,
): Promise<Result<{ items: OperationResponse[]; nextCursor: string | null }>> {
  const after = decodeCursor(query.cursor, 1)?.[0];
  const limit = limitOf(query);
  const rows = await tx.rows<OperationResponse>(
    `${SELECT} and ($2::text is null or o.code ilike $2 or o.name ilike $2) and ($3::text is null or o.code > $3)
        and (o.is_active or $5) order by o.code limit $4`,
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
      (row) => [row.code],
    ),
  );
}

export async function operationById(tx: Tx, operationId: string): Promise<Result<OperationResponse>> {
  const [row] = await operationsByIds(tx, [operationId]);
  return row ? ok(row) : fail('not-found', 'There is no such operation in this shop.');
}

/** The operations of these ids that the shop has; whoever asks compares the numbers. */
export async function operationsByIds(tx: Tx, ids: readonly string[]): Promise<OperationResponse[]> {
  return tx.rows<OperationResponse>(`${SELECT} and o.id = any($2::uuid[])`, [tx.shopId, ids]);
}
