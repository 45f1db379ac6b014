export * from './compare-line.js';
export * from './compare-repair-order.js';
export * from './compare-technician.js';
export * from './credit-book.js';
export * from './ratio.js';
export * from './shop-figures.js';
export * from './sum-compared.js';
