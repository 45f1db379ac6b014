import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { PlanSettingsRow } from '../data/plan-settings.entity.js';
import { settingsResponse, usualSettings } from '../data/plan-settings.mapping.js';
import type { PlanSettingsResponse } from '../dto/plan-settings.js';

export async function planSettings(tx: Tx): Promise<Result<PlanSettingsResponse>> {
  const row = await tx.em.findOne(PlanSettingsRow, { where: { shopId: tx.shopId } });
  return ok(row === null ? usualSettings() : settingsResponse(row));
}
