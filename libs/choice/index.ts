export * from './benefit-of.js';
export * from './best-choice.js';
export * from './choice-problem.js';
export * from './estimate-prices.js';
export * from './ladder.js';
export * from './plain-prices.js';
export * from './price-model.js';
export * from './seeded.js';
