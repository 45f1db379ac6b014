export * from './authorised-cents.js';
export * from './decide.js';
export * from './decision.js';
export * from './latest-decisions.js';
export * from './link-state.js';
