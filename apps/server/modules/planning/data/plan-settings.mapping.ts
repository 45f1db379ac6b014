import type { PlanMode } from '../loading/shop-plan.js';
import type { PlanSettingsRequest, PlanSettingsResponse } from '../dto/plan-settings.js';
import type { PlanSettingsRow } from './plan-settings.entity.js';
import { USUAL_SETTINGS } from './usual-settings.js';

export function settingsResponse(row: PlanSettingsRow): PlanSettingsResponse {
  return {
    mode: row.mode as PlanMode,
    weights: {
      lateness: row.lateness,
      startMoved: row.startMoved,
      hourMoved: row.hourMoved,
      technicianChanged: row.technicianChanged,
      bayChanged: row.bayChanged,
      nearMinutes: row.nearMinutes,
    },
    frozenMinutes: row.frozenMinutes,
    horizonDays: row.horizonDays,
    version: row.version,
  };
}

export const usualSettings = (): PlanSettingsResponse => ({ ...USUAL_SETTINGS, version: 0 });

export const settingsColumns = ({ mode, weights, frozenMinutes, horizonDays }: PlanSettingsRequest) => ({
  ...{ mode, frozenMinutes, horizonDays },
  lateness: weights.lateness,
  startMoved: weights.startMoved,
  hourMoved: weights.hourMoved,
  technicianChanged: weights.technicianChanged,
  bayChanged: weights.bayChanged,
  nearMinutes: weights.nearMinutes,
});
