import type { BodyOf, Reply } from '../api/types.js';

export type Offers = Reply<'/api/v1/plan/offers', 'post'>;
export type Offer = Offers['offers'][number];
export type NoPlace = NonNullable<Offers['noPlace']>;
export type OffersQuestion = NonNullable<BodyOf<'/api/v1/plan/offers', 'post'>>;
export type ReserveRequest = NonNullable<BodyOf<'/api/v1/reservations', 'post'>>;
export type TakeRequest = NonNullable<BodyOf<'/api/v1/reservations/{id}/take', 'post'>>;
export type Reservation = Reply<'/api/v1/reservations/{id}', 'get'>;
export type VehicleMatch = Reply<'/api/v1/search', 'get'>['vehicles'][number];
export type Vehicle = Reply<'/api/v1/vehicles/{id}', 'get'>;
