export * from './mad.js';
export * from './mean-interval.js';
export * from './median.js';
export * from './modified-z.js';
export * from './normal-quantile.js';
export * from './ratio-of-totals.js';
export * from './student-quantile.js';
export * from './wilson.js';
