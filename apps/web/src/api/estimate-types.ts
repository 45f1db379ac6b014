import type { BodyOf, Reply } from './types.js';

export type OrderSummary = Reply<'/api/v1/repair-orders', 'get'>['items'][number];
export type Order = Reply<'/api/v1/repair-orders/{id}', 'get'>;
export type Operation = Reply<'/api/v1/operations', 'get'>['items'][number];
export type Finding = Reply<'/api/v1/repair-orders/{id}/findings', 'get'>['items'][number];

export type Estimate = Reply<'/api/v1/repair-orders/{id}/estimate', 'get'>;
export type Revision = Estimate['revisions'][number];
export type Line = Revision['lines'][number];
export type Figures = Line['alone'];
export type Decision = NonNullable<Line['decision']>;
export type Item = Line['items'][number];
export type Contingency = Line['contingencies'][number];
export type LineRequest = NonNullable<BodyOf<'/api/v1/repair-orders/{id}/lines', 'post'>>;
export type ContingencyRequest = NonNullable<BodyOf<'/api/v1/lines/{id}/contingencies', 'post'>>;

export type Prices = Reply<'/api/v1/revisions/{id}/prices', 'post'>;
export type Range = Reply<'/api/v1/revisions/{id}/ranges', 'post'>;
export type Choices = Reply<'/api/v1/repair-orders/{id}/choices', 'post'>;
export type SpendingSet = Choices['sets'][number];
export type Ladder = Choices['ladder'];
export type Rung = Ladder['rungs'][number];
export type NewLink = Reply<'/api/v1/revisions/{id}/send', 'post'>['link'];
