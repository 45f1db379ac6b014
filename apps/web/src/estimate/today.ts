import { dayOf } from '../board/zone-time.js';

/** The day in the shop, so that times of today are said without their day. */
export const today = (zone: string): string => dayOf(Date.now(), zone);
