export * from './check-machines.js';
export * from './machine-problem.js';
export * from './one-machine-bound.js';
export * from './solve-machines.js';
