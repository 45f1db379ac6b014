import type { BodyOf, Reply } from './types.js';

export type Plan = Reply<'/api/v1/plan', 'get'>;
export type PlannedWork = Plan['planned'][number];
export type PlanWait = PlannedWork['waits'][number];
export type LatePromise = Plan['late'][number];
export type OverduePart = Plan['overdueParts'][number];
export type NotPlanned = Plan['notPlanned'][number];
export type PlanSettings = Reply<'/api/v1/plan/settings', 'get'>;
export type PlanSettingsRequest = NonNullable<BodyOf<'/api/v1/plan/settings', 'put'>>;
export type PlanRun = Reply<'/api/v1/plan/runs/{id}', 'get'>;
export type RunSummary = Reply<'/api/v1/plan/runs', 'get'>['items'][number];
export type PlanChange = PlanRun['changes'][number];
export type RunPlace = NonNullable<PlanChange['was']>;
export type RunPromise = RunSummary['promises']['broken'][number];
