export * from './find-circle.js';
export * from './hold-facts.js';
export * from './holds-of.js';
export * from './move.js';
export * from './stage-of.js';
export * from './work-order-moves.js';
export * from './work-order-state.js';
export * from './why-not-authorised.js';
