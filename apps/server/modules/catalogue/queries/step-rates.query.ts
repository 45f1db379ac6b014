import type { Tx } from '../../../platform/database/tx.js';

export interface StepRate {
  readonly stepId: string;
  readonly rateId: string;
  readonly centsPerHour: number;
}

/** The rates of those of these steps that have one of their own, as they are now. */
export async function stepRates(tx: Tx, stepIds: readonly string[]): Promise<Map<string, StepRate>> {
  const rows = await tx.rows<StepRate>(
    `select s.id as "stepId", r.id as "rateId", r.cents_per_hour as "centsPerHour"
       from steps s join labour_rates r on r.shop_id = s.shop_id and r.id = s.rate_id
      where s.shop_id = $1 and s.id = any($2::uuid[])`,
    [tx.shopId, stepIds],
  );
  return new Map(rows.map((row) => [row.stepId, row]));
}
