export { drivingWarnings } from './queries/driving-warnings.query.js';
export { repairOrderFacts, repairOrderFactsOf } from './queries/repair-order-facts.query.js';
export { openStay, type OpenStay } from './queries/open-stay.query.js';
export { openRepairOrder } from './use-cases/open-repair-order.js';
