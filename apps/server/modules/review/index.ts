export { reviewLines } from './queries/review-lines.query.js';
export { reviewRanges } from './queries/review-ranges.query.js';
export { reviewRepairOrder } from './queries/review-repair-order.query.js';
export { reviewTechnicians } from './queries/review-technicians.query.js';
