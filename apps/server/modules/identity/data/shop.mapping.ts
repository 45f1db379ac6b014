import type { ShopResponse } from '../dto/shop.response.js';
import type { ShopRow } from './shop.entity.js';

export function shopResponse(row: ShopRow): ShopResponse {
  return {
    id: row.shopId,
    slug: row.slug,
    name: row.name,
    phone: row.phone,
    address: row.address,
    timeZone: row.timeZone,
    currency: row.currency,
    jurisdiction: row.jurisdiction,
    dayStartsMinute: row.dayStartsMinute,
    dayEndsMinute: row.dayEndsMinute,
    taxRounding: row.taxRounding,
    suppliesRatePpm: row.suppliesRatePpm,
    suppliesFloorCents: row.suppliesFloorCents,
    suppliesCapCents: row.suppliesCapCents,
    linkValidHours: row.linkValidHours,
    commonSpreadPpm: row.commonSpreadPpm,
    holdMinutes: row.holdMinutes,
    isDemo: row.isDemo,
    version: row.version,
  };
}
