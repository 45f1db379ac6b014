export { assignWorkOrder } from './use-cases/assign-work-order.js';
export { freePlacesOf, freeReservedPlaces, type UsedBy } from './data/free-reserved-places.js';
export { lockPlaces } from './data/fit-place.js';
export type { Place } from './queries/conflicts.query.js';
export { freePlace, keepPlaces, type FreePlace } from './use-cases/keep-places.js';
export { RESERVATION_IS_OVER, RESERVED_PLACE_IS_OVER } from './queries/reservation-over.js';
