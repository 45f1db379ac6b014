import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { lockPlan } from '../data/lock-plan.js';
import { PlanSettingsRow } from '../data/plan-settings.entity.js';
import { settingsColumns, settingsResponse } from '../data/plan-settings.mapping.js';
import type { PlanSettingsRequest, PlanSettingsResponse } from '../dto/plan-settings.js';

/** From the next run on, which this asks for: another weighing may want another plan. */
export async function setPlanSettings(
  tx: Tx,
  version: number | '*',
  request: PlanSettingsRequest,
): Promise<Result<PlanSettingsResponse>> {
  await lockPlan(tx);
  const key = { shopId: tx.shopId };
  const before = await tx.em.findOne(PlanSettingsRow, { where: key });
  const current = checkVersion(version, before?.version ?? 0);
  if (!current.ok) return current;
  const row = { ...key, ...settingsColumns(request), version: (before?.version ?? 0) + 1 };
  await (before === null ? tx.em.insert(PlanSettingsRow, row) : tx.em.update(PlanSettingsRow, key, row));
  await tx.audit('plan.configure', 'shop', tx.shopId, { ...request });
  tx.announce('plan-settings', { shopId: tx.shopId });
  return ok(settingsResponse(row));
}
