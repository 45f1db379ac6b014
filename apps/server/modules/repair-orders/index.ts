export {
  KeptForArrivals,
  type Arrival,
  type FindKept,
  type KeptForArrival,
} from './opening/kept-for-arrivals.js';
export { RepairOrdersModule } from './repair-orders.module.js';
export { drivingWarnings } from './queries/driving-warnings.query.js';
export { repairOrderFacts, repairOrderFactsOf } from './queries/repair-order-facts.query.js';
export { openStay, type OpenStay } from './queries/open-stay.query.js';
export { openRepairOrder } from './use-cases/open-repair-order.js';
