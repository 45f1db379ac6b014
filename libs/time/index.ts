export { interval, type Interval, type IntervalFault } from './interval.js';
export * from './merge.js';
export * from './minutes-to-hours.js';
export * from './overlaps.js';
export * from './round-punch.js';
export * from './seconds-to-hours4.js';
export * from './split-by-day.js';
export * from './subtract.js';
export * from './total-seconds.js';
