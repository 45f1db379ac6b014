export { assignWorkOrder } from './use-cases/assign-work-order.js';
