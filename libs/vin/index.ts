export * from './check-digit.js';
export * from './check-vin.js';
export * from './model-years.js';
export * from './normalise-vin.js';
export * from './vin-check.js';
