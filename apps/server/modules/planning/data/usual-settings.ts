import { USUAL_WEIGHTS } from '#libs/plan';
import type { PlanWish } from '../loading/plan-facts.query.js';

/** How the plan of a shop is made that has not said otherwise. Two hours and three weeks: common sense, no source. */
export const USUAL_SETTINGS: PlanWish = {
  mode: 'propose',
  weights: USUAL_WEIGHTS,
  frozenMinutes: 120,
  horizonDays: 21,
};
