export { customer as customerOf } from './queries/customers.query.js';
export { vehicleOf } from './queries/vehicle.query.js';
export { addCustomer, type NewCustomer } from './use-cases/add-customer.js';
export { addVehicle } from './use-cases/add-vehicle.js';
export { recordOdometer, type ReadOdometer } from './use-cases/record-odometer.js';
